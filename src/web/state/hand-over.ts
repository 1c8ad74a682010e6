/** Files out of the page. The desk writes them with the terminal's own writers. */
import { desk } from './desk.ts';
import { lookUp } from './fronts.ts';
import type { DesignKey } from './fronts.ts';
import { lookedAt } from './looked-at.ts';
import { tell, wordsOf } from './notices.ts';

/** Offers bytes or text as a download. */
export function download(name: string, content: string | Uint8Array, type: string): void {
  // A copy into plain memory, which is what a Blob takes.
  const part = typeof content === 'string' ? content : new Uint8Array(content);
  const address = URL.createObjectURL(new Blob([part], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken hold of it by then.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

export async function handMesh(key: DesignKey, form: 'stl' | '3mf'): Promise<void> {
  const entry = lookedAt.value.get(key);
  const found = lookUp(key);
  if (entry === undefined || found === null) return;
  try {
    const made = await desk().meshFile(entry.title, entry.design, form);
    for (const fault of made.faults) tell('fault', `${found.design.id}: ${fault}`);
    const type = form === 'stl' ? 'model/stl' : 'model/3mf';
    download(`${found.design.id}.${form}`, made.bytes, type);
  } catch (error) {
    tell('fault', `${found.design.id}: ${wordsOf(error)}`);
  }
}

export async function handDesign(key: DesignKey): Promise<void> {
  const entry = lookedAt.value.get(key);
  const found = lookUp(key);
  if (entry === undefined || found === null) return;
  const { brief, genes } = found.loaded.front;
  const text = await desk().designFile(
    entry.title,
    brief,
    entry.design,
    Object.fromEntries(genes.map((gene, i) => [gene.name, found.design.genes[i]])),
  );
  download(`${found.design.id}.design.json`, text, 'application/json');
}

export function handPicture(key: DesignKey): void {
  const entry = lookedAt.value.get(key);
  const found = lookUp(key);
  if (entry === undefined || entry.drawing === null || found === null) return;
  download(`${found.design.id}.svg`, entry.drawing, 'image/svg+xml');
}
