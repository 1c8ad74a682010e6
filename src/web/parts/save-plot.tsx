/** Takes a plot away as a picture, in the light tones, as paper wants them. */
import type { JSX } from 'preact';
import { canvasPen } from '../plots/canvas-pen.ts';
import { fileAfar } from '../plots/far-paper.ts';
import type { FileForm, Sheet } from '../plots/far-paper.ts';
import { drawPicture } from '../plots/pictures.ts';
import type { Picture } from '../plots/pictures.ts';
import { svgPen } from '../plots/svg-pen.ts';
import { download } from '../state/hand-over.ts';
import { tell } from '../state/notices.ts';
import { lightInk } from '../style/ink.ts';

interface Props {
  /** What the plot shows, also the name of the file. */
  readonly title: string;
  readonly size: () => { readonly width: number; readonly height: number };
  readonly picture: () => Picture;
}

/** Canvas pixels per page pixel in the file. */
const PNG_RATIO = 2;
const TYPES = { svg: 'image/svg+xml', png: 'image/png' } as const;

function fileName(title: string, ending: string): string {
  const plain = title
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/gu, '-')
    .replaceAll(/^-+|-+$/gu, '');
  return `${plain.slice(0, 60) || 'plot'}.${ending}`;
}

async function save(form: FileForm, { title, size, picture }: Props): Promise<void> {
  const sheet: Sheet = { ...size(), ratio: PNG_RATIO, ink: lightInk() };
  const made = await fileAfar(form, title, picture(), sheet).catch(() =>
    fileHere(form, title, picture(), sheet),
  );
  if (made === null) {
    tell('fault', 'The browser could not make the picture: it may be too large. SVG still works.');
  } else download(fileName(title, form), made, TYPES[form]);
}

/** On the page's own thread, where no worker draws. */
async function fileHere(
  form: FileForm,
  title: string,
  picture: Picture,
  sheet: Sheet,
): Promise<Uint8Array | null> {
  const { width, height, ink, ratio } = sheet;
  if (form === 'svg') {
    const pen = svgPen(width, height, ink);
    drawPicture(pen, picture);
    return new TextEncoder().encode(pen.finish(title));
  }
  const canvas = document.createElement('canvas');
  const pen = canvasPen(canvas, sheet, ink, ratio);
  if (pen === null) return null;
  pen.box(0, 0, width, height, { tone: 'paper' });
  drawPicture(pen, picture);
  const blob = await new Promise<Blob | null>((resolve) => {
    canvas.toBlob(resolve, 'image/png');
  });
  return blob === null ? null : new Uint8Array(await blob.arrayBuffer());
}

export function SavePlot(props: Props): JSX.Element {
  const { title } = props;
  return (
    <span class="save-plot">
      <button
        type="button"
        aria-label={`Save as SVG: ${title}`}
        onClick={() => void save('svg', props)}
      >
        Save as SVG
      </button>
      <button
        type="button"
        aria-label={`Save as PNG: ${title}`}
        onClick={() => void save('png', props)}
      >
        Save as PNG
      </button>
    </span>
  );
}
