/** A body in the scene: surface, inked edges, and the face where a plane cuts it. */
import {
  AlwaysStencilFunc,
  BackSide,
  BufferAttribute,
  BufferGeometry,
  DecrementWrapStencilOp,
  FrontSide,
  Group,
  IncrementWrapStencilOp,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  NotEqualStencilFunc,
  PlaneGeometry,
  ReplaceStencilOp,
  ShaderMaterial,
  Vector3,
} from 'three';
import type { Color, Material, Plane, Side, StencilOp } from 'three';
import type { ShownBody } from '../../engine/index.ts';

interface BodyTones {
  readonly surface: Color;
  readonly line: Color;
  /** Ground and hatching of the cut. */
  readonly cut: Color;
  readonly hatch: Color;
}

export interface BodyState {
  readonly visible: boolean;
  readonly coloured: boolean;
  /** One flat tone, for the view against a lamp; null: lit surfaces. */
  readonly silhouette: Color | null;
  readonly plane: Plane | null;
  /** Distance of two hatching lines [mm]. */
  readonly hatch_mm: number;
}

export interface SceneBody {
  readonly group: Group;
  /** Colours of the corners, linear components; null: plain. */
  paint(colours: Float32Array | null): void;
  set(state: BodyState, tones: BodyTones): void;
  dispose(): void;
}

/**
 * Cuts are closed by counting: along each line of sight the back faces less the front faces that a
 * plane leaves differ from zero exactly where it cuts solid; there the cut's face is drawn.
 *
 * @param middle of the part, and `size_mm` across it: the cut's face is twice as large.
 * @param order of drawing: each body counts and draws its cut before the next begins.
 */
export function createBody(
  { corners, edges }: ShownBody,
  middle: Vector3,
  size_mm: number,
  order: number,
): SceneBody {
  const surface = new BufferGeometry();
  surface.setAttribute('position', new BufferAttribute(corners, 3));
  const inked = new BufferGeometry();
  inked.setAttribute('position', new BufferAttribute(edges, 3));
  const face = new PlaneGeometry(2 * size_mm, 2 * size_mm);
  const offset = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };
  const plain = new MeshLambertMaterial({ flatShading: true, ...offset });
  const coloured = new MeshLambertMaterial({ flatShading: true, vertexColors: true, ...offset });
  const flat = new MeshBasicMaterial();
  const ink = new LineBasicMaterial();
  const enter = counter(BackSide, IncrementWrapStencilOp);
  const leave = counter(FrontSide, DecrementWrapStencilOp);
  const hatched = hatching();
  const mesh: Mesh<BufferGeometry, Material> = new Mesh(surface, plain);
  const lines = new LineSegments(inked, ink);
  const counters = [new Mesh(surface, enter), new Mesh(surface, leave)];
  const cap = new Mesh(face, hatched);
  for (const one of counters) one.renderOrder = order;
  cap.renderOrder = order + 0.1;
  cap.onAfterRender = (renderer) => renderer.clearStencil();
  mesh.renderOrder = order + 0.2;
  lines.renderOrder = order + 0.3;
  const group = new Group();
  group.add(...counters, cap, mesh, lines);
  return {
    group,
    paint(colours) {
      if (colours === null) surface.deleteAttribute('color');
      else surface.setAttribute('color', new BufferAttribute(colours, 3));
    },
    set({ visible, coloured: isColoured, silhouette, plane, hatch_mm }, tones) {
      group.visible = visible;
      const material = isColoured && surface.hasAttribute('color') ? coloured : plain;
      mesh.material = silhouette === null ? material : flat;
      if (silhouette !== null) flat.color.copy(silhouette);
      plain.color.copy(tones.surface);
      ink.color.copy(tones.line);
      lines.visible = silhouette === null;
      for (const one of [plain, coloured, flat, ink, enter, leave]) {
        one.clippingPlanes = plane === null ? null : [plane];
      }
      for (const one of [...counters, cap]) one.visible = plane !== null;
      if (plane === null) return;
      plane.projectPoint(middle, cap.position);
      // The face looks to the side that is cut away.
      cap.lookAt(cap.position.clone().sub(plane.normal));
      setHatching(hatched, cap, hatch_mm, silhouette ?? tones.cut, silhouette ?? tones.hatch);
    },
    dispose() {
      for (const one of [surface, inked, face]) one.dispose();
      for (const one of [plain, coloured, flat, ink, enter, leave, hatched]) one.dispose();
      group.removeFromParent();
    },
  };
}

function counter(side: Side, op: StencilOp): MeshBasicMaterial {
  return new MeshBasicMaterial({
    side,
    depthTest: false,
    depthWrite: false,
    colorWrite: false,
    stencilWrite: true,
    stencilFunc: AlwaysStencilFunc,
    stencilFail: op,
    stencilZFail: op,
    stencilZPass: op,
  });
}

function hatching(): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: {
      across: { value: new Vector3() },
      period: { value: 1 },
      ground: { value: new Vector3() },
      line: { value: new Vector3() },
    },
    vertexShader: `
      varying vec3 at;
      void main() {
        vec4 world = modelMatrix * vec4(position, 1.0);
        at = world.xyz;
        gl_Position = projectionMatrix * viewMatrix * world;
      }`,
    fragmentShader: `
      uniform vec3 across, ground, line;
      uniform float period;
      varying vec3 at;
      void main() {
        float s = dot(at, across) / period;
        float off = abs(fract(s) - 0.5);
        float soft = fwidth(s);
        float ink = 1.0 - smoothstep(0.09 - soft, 0.09 + soft, off);
        gl_FragColor = vec4(mix(ground, line, ink), 1.0);
        #include <colorspace_fragment>
      }`,
    side: 2,
    stencilWrite: true,
    stencilRef: 0,
    stencilFunc: NotEqualStencilFunc,
    stencilFail: ReplaceStencilOp,
    stencilZFail: ReplaceStencilOp,
    stencilZPass: ReplaceStencilOp,
  });
}

function setHatching(
  { uniforms }: ShaderMaterial,
  cap: Mesh,
  hatch_mm: number,
  ground: Color,
  line: Color,
): void {
  // Lines run at 45 degrees in the plane of the cut.
  const diagonal = Math.SQRT1_2;
  (uniforms['across'].value as Vector3).set(diagonal, diagonal, 0).applyQuaternion(cap.quaternion);
  uniforms['period'].value = hatch_mm;
  (uniforms['ground'].value as Vector3).set(ground.r, ground.g, ground.b);
  (uniforms['line'].value as Vector3).set(line.r, line.g, line.b);
}
