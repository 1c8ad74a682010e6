/** Single questions of the page about a brief or a design, off its own thread. */
import { transfer } from 'comlink';
import {
  InputError,
  briefJsonSchema,
  checkBrief,
  designOf,
  designText,
  drawCutOpen,
  drawPlate,
  explainBrief,
  layersOf,
  listMeasures,
  loadSolids,
  measure,
  meshBytes,
  modelPart,
  shadeBody,
  sketchBrief,
  solid,
} from '../src/engine/index.ts';
import type {
  BodyKind,
  Brief,
  BriefExplained,
  Design,
  FrontDesign,
  FrontGenes,
  MeasureInfo,
  LayerBook,
  LayerPicture,
  MeshForm,
  Measured,
  PartModel,
  ShadeKind,
  Sketch,
} from '../src/engine/index.ts';

/** A fault of an input, by the place it stands at. */
interface DeskFault {
  readonly path: string;
  readonly message: string;
}

export type Checked =
  | {
      readonly ok: true;
      readonly brief: Brief;
      readonly explained: BriefExplained;
      readonly sketch: Sketch;
    }
  | { readonly ok: false; readonly faults: readonly DeskFault[] };

/** A closed triangle mesh [mm], see `Mesh` of the solids room. */
interface DeskMesh {
  readonly vertices: Float32Array;
  readonly triangles: Uint32Array;
  readonly faults: readonly string[];
}

export interface DeskService {
  /** Says where the mesh kernel lies; before the first mesh or drawing. */
  loadKernel(wasmUrl: string): void;
  /** Checks a brief as written, and explains it in plain words when it is sound. */
  check(written: unknown): Checked;
  /** JSON Schema of a brief, the measures by name in it. */
  briefSchema(): Readonly<Record<string, unknown>>;
  /** All measures, in the order of the registry. */
  measures(): readonly MeasureInfo[];
  /** The explicit plate behind a design of a front. */
  rebuild(front: FrontGenes, design: FrontDesign): Design;
  /** Every measure of a design. */
  measure(brief: Brief, design: Design): Measured;
  /** Print-ready mesh; `sides` of a round bore. */
  mesh(name: string, design: Design, sides: number): Promise<DeskMesh>;
  /** The mesh as the terminal writes it. */
  meshFile(
    title: string,
    design: Design,
    form: MeshForm,
  ): Promise<{ readonly bytes: Uint8Array; readonly faults: readonly string[] }>;
  /** The design file as the terminal writes it. */
  designFile(
    title: string,
    brief: Brief,
    design: Design,
    genes: Readonly<Record<string, number>>,
  ): string;
  /** Plan and section as SVG. */
  draw(name: string, design: Design, notes: readonly string[]): Promise<string>;
  /** Isometric, cut open, as SVG. */
  drawOpen(name: string, design: Design): Promise<string>;
  /** Part and air as loose triangles to look at. */
  model(name: string, design: Design): Promise<PartModel>;
  /** A value per triangle of a body of `model`. */
  shade(
    brief: Brief,
    design: Design,
    body: BodyKind,
    corners: Float32Array,
    shade: ShadeKind,
  ): Float32Array;
  /** One layer as it prints; null: the one of which most hangs. */
  layer(brief: Brief, design: Design, wanted: number | null): LayerPicture;
}

/** Layers kept drawn: of the designs looked at last, as far as memory goes. */
const MOST_BOOKS = 4;
const MOST_BOOK_BYTES = 96e6;

/** Sides of a round bore in drawings. */
const DRAWN_SIDES = 24;

export function createDesk(): DeskService {
  let kernel = Promise.resolve();
  const books = new Map<string, LayerBook>();
  const bookOf = (brief: Brief, design: Design): LayerBook => {
    const key = JSON.stringify([brief.process, design]);
    const book = books.get(key) ?? layersOf(brief, design);
    books.delete(key);
    books.set(key, book);
    let bytes = [...books.values()].reduce((sum, one) => sum + one.bytes, 0);
    for (const [old, one] of books) {
      if (old === key || (books.size <= MOST_BOOKS && bytes <= MOST_BOOK_BYTES)) break;
      books.delete(old);
      bytes -= one.bytes;
    }
    return book;
  };
  return {
    loadKernel(wasmUrl) {
      kernel = loadSolids(wasmUrl);
      // A failure is told by the first question that needs the kernel.
      kernel.catch(() => undefined);
    },
    check(written) {
      try {
        const brief = checkBrief(written);
        return { ok: true, brief, explained: explainBrief(brief), sketch: sketchBrief(brief) };
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        const faults = error.faults.map(({ path, message }) => ({ path, message }));
        return { ok: false, faults };
      }
    },
    briefSchema: () => briefJsonSchema(listMeasures().map((info) => info.id)),
    measures: listMeasures,
    rebuild: designOf,
    measure,
    async mesh(name, design, sides) {
      await kernel;
      const { mesh, report } = await solid(name, design, { sides });
      const { vertices, triangles } = mesh;
      const faults = report.faults.map((fault) => fault.message);
      return transfer({ vertices, triangles, faults }, [vertices.buffer, triangles.buffer]);
    },
    async meshFile(title, design, form) {
      await kernel;
      const { mesh, report } = await solid(title, design, { sides: DRAWN_SIDES });
      const bytes = meshBytes(mesh, title, form);
      const faults = report.faults.map((fault) => fault.message);
      return transfer({ bytes, faults }, [bytes.buffer]);
    },
    designFile: designText,
    async draw(name, design, notes) {
      await kernel;
      const { mesh } = await solid(name, design, { sides: DRAWN_SIDES });
      return drawPlate(design, mesh, name, notes);
    },
    async drawOpen(name, design) {
      await kernel;
      const { mesh } = await solid(name, design, { sides: DRAWN_SIDES });
      return drawCutOpen(design, mesh, name);
    },
    async model(name, design) {
      await kernel;
      const model = await modelPart(name, design);
      const bodies = model.air === null ? [model.part] : [model.part, model.air];
      return transfer(
        model,
        bodies.flatMap(({ corners, edges }) => [corners.buffer, edges.buffer]),
      );
    },
    shade(brief, design, body, corners, shade) {
      const values = shadeBody(brief, design, body, corners, shade);
      return transfer(values, [values.buffer]);
    },
    layer: (brief, design, wanted) => bookOf(brief, design).picture(wanted),
  };
}
