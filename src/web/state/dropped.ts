/** What was dropped on the page or chosen: single files, and run folders within folders. */
import type { Openable } from './open-files.ts';

/** Most files looked at in dropped folders, and how deep. */
const MOST_FILES = 5000;
const DEEPEST = 4;

/** Openables of a drop. Folders are looked through for run folders. */
export async function droppedItems(data: DataTransfer): Promise<Openable[]> {
  const entries = [...data.items].flatMap((item) => item.webkitGetAsEntry() ?? []);
  if (entries.length === 0) return chosenItems([...data.files]);
  const found: Openable[] = [];
  const left = { files: MOST_FILES };
  for (const entry of entries) {
    if (entry.isDirectory) await gather(entry as FileSystemDirectoryEntry, found, left, 0);
    else found.push({ kind: 'file', file: await fileOf(entry as FileSystemFileEntry) });
  }
  return found;
}

/** Openables of a file or folder chooser: files of a folder come with paths. */
export function chosenItems(files: readonly File[]): Openable[] {
  const loose: Openable[] = [];
  const folders = new Map<string, Map<string, File>>();
  for (const file of files) {
    const path = file.webkitRelativePath;
    if (path === '') {
      loose.push({ kind: 'file', file });
      continue;
    }
    const folder = path.slice(0, path.lastIndexOf('/'));
    const inside = folders.get(folder) ?? new Map<string, File>();
    inside.set(file.name, file);
    folders.set(folder, inside);
  }
  const runs = [...folders].filter(([, inside]) => inside.has('front.json'));
  return [
    ...loose,
    ...runs.map(([folder, inside]) => ({
      kind: 'run' as const,
      name: nameOf(folder),
      files: inside,
    })),
  ];
}

function nameOf(folder: string): string {
  return folder.slice(folder.lastIndexOf('/') + 1);
}

async function gather(
  folder: FileSystemDirectoryEntry,
  found: Openable[],
  left: { files: number },
  depth: number,
): Promise<void> {
  const files = new Map<string, File>();
  for (const entry of await entriesOf(folder)) {
    if (left.files-- <= 0) return;
    if (entry.isFile) {
      if (/\.jsonl?$/u.test(entry.name)) {
        files.set(entry.name, await fileOf(entry as FileSystemFileEntry));
      }
    } else if (depth < DEEPEST) {
      await gather(entry as FileSystemDirectoryEntry, found, left, depth + 1);
    }
  }
  if (files.has('front.json')) found.push({ kind: 'run', name: folder.name, files });
}

/** All entries of a folder: the browser hands them out in portions, an empty one at the end. */
async function entriesOf(folder: FileSystemDirectoryEntry): Promise<FileSystemEntry[]> {
  const reader = folder.createReader();
  const all: FileSystemEntry[] = [];
  for (;;) {
    const some = await new Promise<FileSystemEntry[]>((resolve, reject) => {
      reader.readEntries(resolve, reject);
    });
    if (some.length === 0 || all.length > MOST_FILES) return all;
    all.push(...some);
  }
}

function fileOf(entry: FileSystemFileEntry): Promise<File> {
  return new Promise((resolve, reject) => {
    entry.file(resolve, reject);
  });
}
