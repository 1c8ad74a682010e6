/** Takes a plot away as a picture, in the light tones, as paper wants them. */
import type { JSX } from 'preact';
import { canvasPen } from '../plots/canvas-pen.ts';
import type { Pen } from '../plots/pen.ts';
import { svgPen } from '../plots/svg-pen.ts';
import { download } from '../state/hand-over.ts';
import { tell } from '../state/notices.ts';
import { lightInk } from '../style/ink.ts';

interface Props {
  /** What the plot shows, also the name of the file. */
  readonly title: string;
  readonly size: () => { readonly width: number; readonly height: number };
  readonly draw: (pen: Pen) => void;
}

/** Canvas pixels per page pixel in the file. */
const PNG_RATIO = 2;

function fileName(title: string, ending: string): string {
  const plain = title
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/gu, '-')
    .replaceAll(/^-+|-+$/gu, '');
  return `${plain.slice(0, 60) || 'plot'}.${ending}`;
}

function savePng(title: string, size: { width: number; height: number }, draw: Props['draw']) {
  const canvas = document.createElement('canvas');
  const ink = lightInk();
  const pen = canvasPen(canvas, size, ink, PNG_RATIO);
  if (pen === null) {
    tell('fault', 'This browser grants no canvas for the picture; SVG still works.');
    return;
  }
  pen.box(0, 0, size.width, size.height, { tone: 'paper' });
  draw(pen);
  canvas.toBlob((blob) => {
    if (blob === null) {
      tell('fault', 'The browser could not make the picture: it may be too large.');
      return;
    }
    void blob
      .arrayBuffer()
      .then((bytes) => download(fileName(title, 'png'), new Uint8Array(bytes), 'image/png'));
  }, 'image/png');
}

export function SavePlot({ title, size, draw }: Props): JSX.Element {
  return (
    <span class="save-plot">
      <button
        type="button"
        aria-label={`Save as SVG: ${title}`}
        onClick={() => {
          const { width, height } = size();
          const pen = svgPen(width, height, lightInk());
          draw(pen);
          download(fileName(title, 'svg'), pen.finish(title), 'image/svg+xml');
        }}
      >
        Save as SVG
      </button>
      <button
        type="button"
        aria-label={`Save as PNG: ${title}`}
        onClick={() => savePng(title, size(), draw)}
      >
        Save as PNG
      </button>
    </span>
  );
}
