/** The report of a front: pictures and numbers of chosen designs in one HTML file. */
import { drawFront, figure, reportCharts, writeReport } from '../formats/index.ts';
import type { ReportDesign, ReportPicture, VerifyCase } from '../formats/index.ts';
import { bestOf, kneeOf } from './knee.ts';
import type { Front } from './model.ts';
import { drawCutOpen, drawPlate } from './picture.ts';
import { portrayDesign } from './portrait.ts';
import { designOf, findDesign } from './rebuild.ts';
import { solid } from './solid.ts';

/** Sides of a round bore in the meshes that pictures are cut from. */
const PICTURE_SIDES = 24;

/** The designs of a front that people look at first. */
export interface FrontMarks {
  readonly knee: string | null;
  /** Best design per objective, by id. */
  readonly best: readonly { readonly objective: string; readonly id: string }[];
}

export function marksOf(front: Front): FrontMarks {
  const best = bestOf(front).map((design, i) => ({
    objective: front.objectives[i],
    id: design.id,
  }));
  return { knee: kneeOf(front)?.id ?? null, best };
}

/** 'knee, best dustCapture'; empty for a design without a mark. */
export function markWords(marks: FrontMarks, id: string): string {
  const words = marks.best
    .filter((entry) => entry.id === id)
    .map((entry) => `best ${entry.objective}`);
  return (marks.knee === id ? ['knee', ...words] : words).join(', ');
}

/** Ids of the knee and of the best design per objective, each once: what a report shows by itself. */
export function markedIds(front: Front): string[] {
  const { knee, best } = marksOf(front);
  return [...new Set([...(knee === null ? [] : [knee]), ...best.map(({ id }) => id)])];
}

type Solid = Pick<Awaited<ReturnType<typeof solid>>, 'mesh' | 'report'>;

/** A computed flow, and the slice through it where it is still there. */
export interface ComputedFlow {
  readonly entry: VerifyCase;
  /** SVG text. */
  readonly slice: string | null;
}

/**
 * Everything a report shows of one design.
 *
 * @param meshed its mesh, made when left out.
 * @param computed flows that were computed for it.
 */
export async function reportDesign(
  front: Front,
  id: string,
  meshed: Solid | null = null,
  computed: readonly ComputedFlow[] = [],
): Promise<ReportDesign> {
  const { brief } = front;
  const found = findDesign(front, id);
  const design = designOf(front, found);
  const mark = markWords(marksOf(front), id);
  const { mesh, report } = meshed ?? (await solid(id, design, { sides: PICTURE_SIDES }));
  const drawing: ReportPicture = {
    svg: drawPlate(design, mesh, `${brief.name}, ${id}`, mark === '' ? [] : [mark]),
    caption: `Plan and section, cut from its mesh (genus ${report.genus}, ${figure(report.volume_mm3)} mm3 of solid).`,
  };
  const open: ReportPicture = {
    svg: await drawCutOpen(design, mesh, `${id}, cut open`),
    caption: 'Isometric view, cut open along its busiest row of ports.',
  };
  const charts = reportCharts(id, portrayDesign(brief, design));
  const pictures = [drawing, open, ...charts, ...computed.flatMap(sliceOf)];
  const flows = computed.map(({ entry }) => entry);
  return { design: found, mark, build: design.plate.build, pictures, flows };
}

function sliceOf({ entry, slice }: ComputedFlow): ReportPicture[] {
  if (slice === null) return [];
  const at = `${entry.velocity_m_per_s.toFixed(2)} m/s, Re ${entry.reynolds.toFixed(0)}`;
  const caption = `Computed speed through the ${entry.role === 'median' ? 'median channel' : `channel of ${entry.role} flow`} at ${at}: the darker the faster, red runs back.`;
  return [{ svg: slice, caption }];
}

/** The numbers of a design only. */
export function withoutPictures(front: Front, id: string): ReportDesign {
  const design = findDesign(front, id);
  const { build } = designOf(front, design).plate;
  return { design, mark: markWords(marksOf(front), id), build, pictures: [], flows: [] };
}

/** The picture of a front, or null where it has no two objectives to draw. */
export function frontPicture(front: Front): ReportPicture | null {
  if (front.objectives.length < 2 || front.designs.length === 0) return null;
  const { knee } = marksOf(front);
  const svg = drawFront(front, knee === null ? {} : { knee });
  return { svg, caption: 'Every design of the front over its first objectives.' };
}

/** The whole report as HTML. */
export function reportText(front: Front, designs: readonly ReportDesign[]): string {
  const picture = frontPicture(front);
  return writeReport({ front, pictures: picture === null ? [] : [picture], designs });
}

/**
 * The report as HTML with all pictures, the same that the terminal writes; some seconds a design.
 *
 * @param ids designs to show; the knee and the best per objective when empty.
 */
export async function frontReport(front: Front, ids: readonly string[] = []): Promise<string> {
  const shown: ReportDesign[] = [];
  for (const id of ids.length === 0 ? markedIds(front) : ids) {
    shown.push(await reportDesign(front, id));
  }
  return reportText(front, shown);
}
