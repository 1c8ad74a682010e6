/** The report of a run: one self-contained page with pictures, tables, sources and cautions. */
import type { Front, FrontDesign, MeasureInfo } from '../engine/index.ts';
import { citeCalibration } from './calibration-words.ts';
import { citeCorrection } from './correction-file.ts';
import { figure } from './figure.ts';
import { assumptions, printAdvice } from './print-advice.ts';
import { flowsSection } from './report-flows.ts';
import type { VerifyCase } from './verify-schema.ts';
import { escapeXml } from './xml.ts';

/** A picture and what stands under it. */
export interface ReportPicture {
  /** SVG text. */
  readonly svg: string;
  readonly caption: string;
}

export interface ReportDesign {
  readonly design: FrontDesign;
  /** Why it is shown: 'knee', 'best dustCapture'. */
  readonly mark: string;
  /** How it stands when printed. */
  readonly build: 'flat' | 'edge';
  readonly pictures: readonly ReportPicture[];
  /** Flows computed for it. */
  readonly flows: readonly VerifyCase[];
}

export interface ReportContent {
  readonly front: Front;
  readonly pictures: readonly ReportPicture[];
  readonly designs: readonly ReportDesign[];
}

/**
 * The report as HTML. It asks for nothing from outside, has no script, and the same content gives
 * the same bytes.
 */
export function writeReport({ front, pictures, designs }: ReportContent): string {
  const name = escapeXml(front.brief.name);
  return numberPictures(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${name}: front</title>
<style>${STYLE}</style>
</head>
<body>
<header>
<h1>${name}</h1>
<p>${front.designs.length} designs, none better than another in every objective, after ${front.generation} generations and ${front.evaluations} evaluations. Seed <code>${escapeXml(front.brief.search.seed)}</code>, anfract ${escapeXml(front.anfract)}.</p>
${calibrationLine(front)}</header>
<main>
<section><h2>Front</h2>
${pictures.map(pictureOf).join('\n')}
${frontRows(front, designs)}
</section>
<section><h2>Starting designs</h2>
<p>What one would have drawn first, on the same measures.</p>
${startRows(front)}
</section>
${designs.map((entry) => designSection(front, entry)).join('\n')}
<section><h2>What the numbers take for granted</h2>
<ul>
${assumptions(front)
  .map((text) => `<li>${escapeXml(text)}</li>`)
  .join('\n')}
</ul></section>
<section><h2>Cautions</h2>
<ul>
${cautions(front)}
</ul></section>
<section><h2>Measures</h2>
${sources(front.measures)}
</section>
</main>
</body>
</html>
`);
}

/**
 * Makes the names inside inlined pictures differ from picture to picture: each was drawn as a
 * document of its own.
 */
function numberPictures(html: string): string {
  let picture = 0;
  return html.replaceAll(/<svg[^]*?<\/svg>/g, (svg) => {
    picture++;
    return svg
      .replaceAll(/ id="([^"]+)"/g, ` id="p${picture}-$1"`)
      .replaceAll(/url\(#([^)]+)\)/g, `url(#p${picture}-$1)`)
      .replaceAll(/aria-labelledby="([^"]+)"/g, (_, names: string) => {
        const own = names.split(' ').map((name) => `p${picture}-${name}`);
        return `aria-labelledby="${own.join(' ')}"`;
      });
  });
}

function calibrationLine({ brief }: Front): string {
  const cited = [citeCalibration(brief), citeCorrection(brief)].filter((text) => text !== null);
  return cited.map((text) => `<p>${escapeXml(text)}</p>\n`).join('');
}

const STYLE = `
:root { color-scheme: light; }
body { font: 15px/1.5 Georgia, 'Liberation Serif', serif; color: #1d2a30; background: #fbfaf6; max-width: 62rem; margin: 2rem auto; padding: 0 1.5rem; }
h1, h2, h3 { font-weight: 600; line-height: 1.2; } h1 { font-size: 1.8rem; } h2 { font-size: 1.25rem; border-bottom: 1px solid #9aa7a5; padding-bottom: .25rem; margin-top: 2.5rem; }
table { border-collapse: collapse; width: 100%; font-size: .86rem; font-variant-numeric: tabular-nums; margin: 1rem 0; }
th, td { text-align: left; padding: .25rem .6rem .25rem 0; border-bottom: 1px solid #dcdcd0; vertical-align: top; }
td.n, th.n { text-align: right; } .missed { font-weight: 700; }
.pictures { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); gap: 0 1.5rem; } .pictures figure:first-child { grid-column: 1 / -1; }
figure { margin: 1rem 0; break-inside: avoid; } figure svg { max-width: 100%; height: auto; } figcaption { font-size: .86rem; color: #4c5a5e; }
section { break-inside: auto; } code { font-size: .9em; }
@page { margin: 16mm; }
@media print { body { margin: 0; background: #fff; font-size: 10.5pt; } h2, h3 { break-after: avoid; } tr { break-inside: avoid; } section + section { break-before: auto; } }
@media (max-width: 40rem) { body { padding: 0 .75rem; } .pictures { grid-template-columns: 1fr; } table { display: block; overflow-x: auto; } }
`;

function pictureOf({ svg, caption }: ReportPicture): string {
  // Pictures come with an XML head of their own, which HTML does not take.
  const body = svg.slice(Math.max(0, svg.indexOf('<svg')));
  return `<figure>${body}<figcaption>${escapeXml(caption)}</figcaption></figure>`;
}

function objectivesOf(front: Front): { info: MeasureInfo; at: number }[] {
  return front.objectives.map((id) => {
    const at = front.measures.findIndex((info) => info.id === id);
    return { info: front.measures[at], at };
  });
}

function headings(front: Front): string {
  return objectivesOf(front)
    .map(({ info }) => `<th class="n">${escapeXml(info.label)} [${escapeXml(info.unit)}]</th>`)
    .join('');
}

function frontRows(front: Front, shown: readonly ReportDesign[]): string {
  const objectives = objectivesOf(front);
  const rows = pickRows(front.designs, shown).map((design) => {
    const mark = shown.find((entry) => entry.design.id === design.id)?.mark ?? '';
    const cells = objectives.map(({ at }) => `<td class="n">${figure(design.readings[at])}</td>`);
    return `<tr><td>${escapeXml(design.id)}</td>${cells.join('')}<td>${escapeXml(design.origin)}</td><td>${escapeXml(mark)}</td></tr>`;
  });
  return `<table><thead><tr><th>Design</th>${headings(front)}<th>Origin</th><th>Mark</th></tr></thead><tbody>
${rows.join('\n')}
</tbody></table>${rows.length < front.designs.length ? `\n<p>${rows.length} of ${front.designs.length} designs, evenly over the first objective; front.csv has all of them.</p>` : ''}`;
}

/** Most rows of the table of a front. */
const MOST_ROWS = 30;

/** Evenly picked designs; those shown below are always among them. */
function pickRows(
  designs: readonly FrontDesign[],
  shown: readonly ReportDesign[],
): readonly FrontDesign[] {
  if (designs.length <= MOST_ROWS) return designs;
  const named = new Set(shown.map(({ design }) => design.id));
  const step = (designs.length - 1) / (MOST_ROWS - 1);
  const picked = new Set(
    Array.from({ length: MOST_ROWS }, (_, i) => designs[Math.round(i * step)].id),
  );
  return designs.filter(({ id }) => named.has(id) || picked.has(id));
}

function startRows(front: Front): string {
  const objectives = objectivesOf(front);
  const rows = front.starts.map((start) => {
    const cells = objectives.map(
      ({ at }) => `<td class="n">${figure(start.readings[at] ?? null)}</td>`,
    );
    const verdict = start.failure === null ? (start.feasible ? 'yes' : 'no') : 'does not fit';
    return `<tr><td>${escapeXml(start.label)}</td>${cells.join('')}<td>${verdict}</td><td class="n">${figure(start.hypervolume)}</td></tr>`;
  });
  return `<table><thead><tr><th>Start</th>${headings(front)}<th>Meets limits</th><th class="n">Hypervolume alone</th></tr></thead><tbody>
${rows.join('\n')}
</tbody></table>
<p>Hypervolume of the front: ${figure(front.hypervolume.value)} on the same yardstick.</p>`;
}

function designSection(
  front: Front,
  { design, mark, build, pictures, flows }: ReportDesign,
): string {
  const rows = front.measures.map((info, j) => {
    const limits = design.limits.filter((limit) => limit.measure === info.id);
    const bounds = limits.map(
      (limit) => `${limit.bound === 'atMost' ? '&le;' : '&ge;'} ${figure(limit.value)}`,
    );
    const verdicts = limits.map((limit) =>
      limit.margin >= 0 ? 'met' : `<span class="missed">missed by ${figure(-limit.margin)}</span>`,
    );
    const change = design.refinedChange[j];
    const finer = change === null ? '' : `${figure(100 * change)} %`;
    return `<tr><td>${escapeXml(info.label)}</td><td class="n">${figure(design.readings[j])}</td><td>${escapeXml(info.unit)}</td><td>${bounds.join(' ')}</td><td>${verdicts.join(' ')}</td><td class="n">${finer}</td><td>${escapeXml(info.standing)}</td></tr>`;
  });
  const outside = design.outside.map((text) => `<li>${escapeXml(text)}</li>`).join('');
  return `<section><h2>Design ${escapeXml(design.id)}${mark === '' ? '' : ` (${escapeXml(mark)})`}</h2>
<div class="pictures">
${pictures.map(pictureOf).join('\n')}
</div>
<table><thead><tr><th>Measure</th><th class="n">Reading</th><th>Unit</th><th>Limit</th><th>Verdict</th><th class="n">Sampled finer</th><th>Standing</th></tr></thead><tbody>
${rows.join('\n')}
</tbody></table>
${flowsSection(flows)}<h3>Printing it</h3><ul>${printAdvice(front, design, build)
    .map((text) => `<li>${escapeXml(text)}</li>`)
    .join('')}</ul>
${outside === '' ? '' : `<h3>Outside the range where a number holds</h3><ul>${outside}</ul>`}
</section>`;
}

function cautions(front: Front): string {
  const own = front.measures.flatMap((info) => info.caution ?? []);
  const usual = [
    'Print one plate and try it before relying on any number here; printers and materials differ.',
    'Keep the machine unplugged while fitting the plate; moving blades, mains parts and hot parts need guards by local rules and a qualified person.',
    'Dust can burn or explode, and plastics soften and burn: explosive dust, heat sources and fire protection are matters for local codes and licensed practice.',
  ];
  return [...new Set([...own, ...usual])].map((text) => `<li>${escapeXml(text)}</li>`).join('\n');
}

function sources(measures: readonly MeasureInfo[]): string {
  const rows = measures.map(
    (info) =>
      `<tr><td><code>${escapeXml(info.id)}</code></td><td>${escapeXml(info.meaning)}</td><td>${escapeXml(info.validity)}</td><td>${escapeXml(info.source)}</td><td>${escapeXml(info.standing)}</td></tr>`,
  );
  return `<table><thead><tr><th>Measure</th><th>Meaning</th><th>Holds for</th><th>Source</th><th>Standing</th></tr></thead><tbody>
${rows.join('\n')}
</tbody></table>`;
}
