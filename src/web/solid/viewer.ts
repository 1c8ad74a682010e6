/** Parts drawn with WebGL: one renderer for all canvases, so that the page needs one context only. */
import {
  AmbientLight,
  Color,
  DirectionalLight,
  Mesh,
  MeshBasicMaterial,
  OrthographicCamera,
  Path,
  Plane,
  Scene,
  Shape,
  ShapeGeometry,
  Vector2,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { Ink } from '../style/ink-tones.ts';
import { createBody } from './body.ts';
import type { BodyState, SceneBody } from './body.ts';
import type { Cut, Shown } from './look.ts';
import type { SolidPart } from './engine.ts';
import { basisOf } from './view.ts';
import type { View } from './view.ts';

export interface Frame {
  readonly view: View;
  readonly shown: Shown;
  readonly cut: Cut | null;
  readonly isLit: boolean;
  readonly coloured: boolean;
  readonly ink: Ink;
  /** Half height of the picture at zoom 1, the same for all designs [mm]. */
  readonly half_mm: number;
}

/** On the page, or in a worker. */
export type AnyCanvas = HTMLCanvasElement | OffscreenCanvas;
type Paper = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

export interface Viewer {
  put(key: string, one: SolidPart): void;
  /** Colours of corners, linear; null: plain. */
  paint(key: string, body: 'part' | 'air', colours: Float32Array | null): void;
  drop(key: string): void;
  /** @returns millimetres per pixel of the canvas. */
  draw(key: string, canvas: AnyCanvas, frame: Frame): number;
  dispose(): void;
}

interface Standing {
  readonly part: SceneBody;
  readonly air: SceneBody | null;
  readonly lamp: Mesh<ShapeGeometry, MeshBasicMaterial>;
  readonly middle: Vector3;
  readonly low: Vector3;
  readonly high: Vector3;
}

/** Seen against the lamp: a dark plate in front of warm light, in either theme. */
const LAMP = new Color('#ffe7a3');
const DARK = new Color('#232c33');
/** Pixels between hatching lines. */
const HATCH_PX = 9;
/** Share of ambient light: colours that mean something shall not be shaded much. */
const AMBIENT = { plain: 0.62, coloured: 0.86 };

/** @param context with a stencil buffer, on a canvas of its own. */
export function createViewer(context: WebGL2RenderingContext, onLost: () => void): Viewer {
  const renderer = new WebGLRenderer({ canvas: context.canvas, context });
  renderer.localClippingEnabled = true;
  renderer.domElement.addEventListener('webglcontextlost', onLost);
  const scene = new Scene();
  const ambient = new AmbientLight();
  const head = new DirectionalLight();
  scene.add(ambient, head, head.target);
  const camera = new OrthographicCamera();
  camera.matrixAutoUpdate = false;
  const standings = new Map<string, Standing>();
  const buffer = new Vector2(1, 1);
  renderer.setSize(1, 1, false);

  const drop = (key: string): void => {
    const standing = standings.get(key);
    if (standing === undefined) return;
    standings.delete(key);
    standing.part.dispose();
    standing.air?.dispose();
    standing.lamp.geometry.dispose();
    standing.lamp.material.dispose();
    standing.lamp.removeFromParent();
  };

  return {
    put(key, one) {
      drop(key);
      const standing = createStanding(one);
      standings.set(key, standing);
      scene.add(standing.part.group, standing.lamp);
      if (standing.air !== null) scene.add(standing.air.group);
    },
    paint(key, body, colours) {
      standings.get(key)?.[body]?.paint(colours);
    },
    drop,
    draw(key, canvas, frame) {
      const standing = standings.get(key);
      const { width, height } = canvas;
      const paper: Paper | null = canvas.getContext('2d');
      if (standing === undefined || paper === null || width === 0 || height === 0) return 0;
      if (buffer.x < width || buffer.y < height) {
        buffer.max(new Vector2(width, height));
        renderer.setSize(buffer.x, buffer.y, false);
      }
      renderer.setViewport(0, 0, width, height);
      for (const [other, { part, air, lamp }] of standings) {
        if (other === key) continue;
        part.group.visible = false;
        if (air !== null) air.group.visible = false;
        lamp.visible = false;
      }
      const mm_per_px = aim(camera, head, standing, frame, width, height);
      ambient.intensity = Math.PI * (frame.coloured ? AMBIENT.coloured : AMBIENT.plain);
      head.intensity = Math.PI - ambient.intensity;
      dress(standing, frame, mm_per_px);
      renderer.setClearColor(new Color(frame.ink.paper));
      renderer.render(scene, camera);
      // The picture stands at the lower left of the buffer.
      const top = buffer.y - height;
      paper.drawImage(renderer.domElement, 0, top, width, height, 0, 0, width, height);
      return mm_per_px;
    },
    dispose() {
      renderer.domElement.removeEventListener('webglcontextlost', onLost);
      for (const key of standings.keys()) drop(key);
      renderer.dispose();
      renderer.forceContextLoss();
    },
  };
}

function createStanding(one: SolidPart): Standing {
  const low = new Vector3(...one.low);
  const high = new Vector3(...one.high);
  const size_mm = low.distanceTo(high);
  const middle = low.clone().add(high).multiplyScalar(0.5);
  const outline: Vector2[] = [];
  for (let k = 0; k < one.outline.length; k += 2) {
    outline.push(new Vector2(one.outline[k], one.outline[k + 1]));
  }
  const sheet = new Shape(outline);
  // Screws fill the mounting holes: no light there.
  for (const { x_mm, y_mm, diameter_mm } of one.holes) {
    sheet.holes.push(new Path().absarc(x_mm, y_mm, diameter_mm / 2, 0, 2 * Math.PI, true));
  }
  const lamp = new Mesh(new ShapeGeometry(sheet), new MeshBasicMaterial({ color: LAMP, side: 2 }));
  return {
    part: createBody(one.part, middle, size_mm, 1),
    air: one.air === null ? null : createBody(one.air, middle, size_mm, 2),
    lamp,
    middle,
    low,
    high,
  };
}

/** Puts camera and lamp; returns millimetres per pixel. */
function aim(
  camera: OrthographicCamera,
  head: DirectionalLight,
  { middle, low, high }: Standing,
  { view, half_mm }: Frame,
  width: number,
  height: number,
): number {
  const basis = basisOf(view);
  const [right, up, toEye] = [basis.right, basis.up, basis.toEye].map((v) => new Vector3(...v));
  const fit = half_mm * Math.max(1, height / width);
  const half = fit / view.zoom;
  camera.top = half;
  camera.bottom = -half;
  camera.right = (half * width) / height;
  camera.left = -camera.right;
  const away = 2 * low.distanceTo(high);
  camera.near = 0;
  camera.far = 2 * away;
  const eye = middle
    .clone()
    .addScaledVector(right, view.panX * fit)
    .addScaledVector(up, view.panY * fit)
    .addScaledVector(toEye, away);
  camera.matrix.makeBasis(right, up, toEye).setPosition(eye);
  camera.updateMatrixWorld(true);
  camera.updateProjectionMatrix();
  head.target.position.set(0, 0, 0);
  head.position.copy(toEye).addScaledVector(up, 0.5).addScaledVector(right, -0.35);
  return (2 * half) / height;
}

function dress(standing: Standing, frame: Frame, mm_per_px: number): void {
  const { part, air, lamp, low, high } = standing;
  const { shown, ink, coloured } = frame;
  const isLit = frame.isLit && shown !== 'air';
  const hatch_mm = HATCH_PX * mm_per_px;
  const plane = planeOf(frame.cut, low, high);
  const base: Omit<BodyState, 'visible' | 'plane'> = {
    coloured,
    silhouette: isLit ? DARK : null,
    hatch_mm,
  };
  part.set(
    { ...base, visible: shown !== 'air', plane },
    {
      surface: color(ink.hair),
      line: color(ink.line),
      cut: color(ink.paper),
      hatch: color(ink.accent),
    },
  );
  air?.set(
    // Inside an open part the air stays whole.
    { ...base, visible: shown !== 'part' && !isLit, plane: shown === 'air' ? plane : null },
    {
      surface: color(coloured ? ink.hair : ink.air),
      line: color(ink.line),
      cut: color(ink.paper),
      hatch: color(ink.air),
    },
  );
  lamp.visible = isLit;
  const isAbove = frame.view.raise_deg >= 0;
  lamp.position.z = isAbove ? low.z - 0.02 : high.z + 0.02;
}

function color(tone: string): Color {
  return new Color(tone);
}

function planeOf(cut: Cut | null, low: Vector3, high: Vector3): Plane | null {
  if (cut === null) return null;
  const at = low.getComponent(cut.axis);
  const level = at + cut.share * (high.getComponent(cut.axis) - at);
  const normal = new Vector3().setComponent(cut.axis, cut.other ? -1 : 1);
  return new Plane(normal, cut.other ? level : -level);
}
