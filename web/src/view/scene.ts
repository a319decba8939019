// The engine's model in three dimensions: real parts where they stand, seen from where one drags to.
import * as three from "three";
import { OrbitControls } from "three/examples/jsm/controls/OrbitControls.js";
import { GLTFLoader } from "three/examples/jsm/loaders/GLTFLoader.js";
import { mergeGeometries } from "three/examples/jsm/utils/BufferGeometryUtils.js";

/** What is shown of the model, and how. */
export interface Shown {
  /** Mark of the part that is selected. */
  part: string | undefined;
  /** The step that is lit, from 1; 0: none. */
  step: number;
  /** Marks that are not up yet, and the one that goes on now; everything is up when left out. */
  built: { later: ReadonlySet<string>; now: string } | undefined;
  /** How far across the stair the cut lies, 0 to 1; nothing cut when left out. */
  section: number | undefined;
  person: boolean;
}
export type Side = "corner" | "front" | "side" | "top";
/** Inches between two places of the model, level out from the house, level across, and plumb. */
export interface Measured {
  straight: number;
  out: number;
  across: number;
  up: number;
}

const INCH = 0.0254;
/** Screws and bolts are shown to who comes as near as this, in metres. */
const NEAR = 1.6;
/** A touch takes the nearest corner within so many pixels, else the place itself. */
const SNAP = 14;
/** As far as a finger moves in a touch that is not a drag, in pixels. */
const STILL = 6;
/** How long a part takes to drop into place, in milliseconds, and from how high, in metres. */
const DROP = { time: 180, height: 0.25 };
/** A person to go by: 5 ft 9 in, in metres. */
const TALL = 1.75;
/** Further than any stair reaches, in metres. */
const BEYOND = 100;
/** Kinds of parts that nobody has to see whole to see the stair. */
const ASIDE = new Set(["footing", "there already", "landing"]);
const CHALK = 0x235a86;
const CUT_FACE = new three.Color(0xd9a066);

/** Wood with a face where it is cut through: the inside of a closed mesh is seen there, and nowhere else. */
function withCutFace(material: three.MeshStandardMaterial, plane: three.Plane): three.MeshStandardMaterial {
  const own = material.clone();
  own.side = three.DoubleSide;
  own.clippingPlanes = [plane];
  own.onBeforeCompile = (shader) => {
    shader.uniforms["cutFace"] = { value: CUT_FACE };
    shader.fragmentShader = `uniform vec3 cutFace;\n${shader.fragmentShader.replace(
      "#include <tonemapping_fragment>",
      "if (!gl_FrontFacing) gl_FragColor = vec4(cutFace, 1.0);\n#include <tonemapping_fragment>",
    )}`;
  };
  return own;
}

/** Boxes and rounds of a person's proportions, feet at the origin. */
function personOf(): three.Group {
  const person = new three.Group();
  const cloth = new three.MeshStandardMaterial({ color: 0x7f8a93, roughness: 1 });
  const limb = (radius: number, from: number, to: number, x: number) => {
    const mesh = new three.Mesh(new three.CapsuleGeometry(radius, to - from - 2 * radius, 4, 12), cloth);
    mesh.position.set(x, (from + to) / 2, 0);
    person.add(mesh);
  };
  for (const side of [-1, 1]) {
    limb(0.075, 0, 0.85, side * 0.1);
    limb(0.05, 0.72, 1.43, side * 0.24);
  }
  limb(0.17, 0.72, 1.48, 0);
  const head = new three.Mesh(new three.SphereGeometry(0.115, 20, 14), cloth);
  head.position.y = TALL - 0.115;
  person.add(head);
  return person;
}

/** Frees what the graphics card holds of it. */
function free(drawn: three.Mesh | three.Line): void {
  (drawn.geometry as three.BufferGeometry).dispose();
  (drawn.material as three.Material).dispose();
}
function discard(drawn: three.Mesh | three.Line): void {
  drawn.removeFromParent();
  free(drawn);
}

type Part = three.Mesh<three.BufferGeometry, three.MeshStandardMaterial>;

export class Scene {
  private readonly renderer: three.WebGLRenderer;
  private readonly scene = new three.Scene();
  private readonly camera = new three.PerspectiveCamera(40, 1, 0.05, 100);
  private readonly controls: OrbitControls;
  private readonly plane = new three.Plane(new three.Vector3(-1, 0, 0), 0);
  private readonly person = personOf();
  private readonly parts = new Map<string, Part>();
  private readonly fasteners: { joins: string[]; geometry: three.BufferGeometry }[] = [];
  private readonly measuring = new three.Group();
  private readonly calm = matchMedia("(prefers-reduced-motion: reduce)");
  private model = new three.Group();
  private hardware: three.Mesh | undefined;
  private joints: three.Mesh | undefined;
  /** Round what has to be seen, and round the landing. */
  private readonly box = new three.Box3();
  private readonly landing = new three.Box3();
  private shown: Shown = { part: undefined, step: 0, built: undefined, section: undefined, person: false };
  private measures = false;
  private measured: three.Vector3[] = [];
  private dropped = 0;
  private asked = false;
  private placed = false;

  /** ERRORS throws where the browser draws nothing in three dimensions. */
  constructor(
    private readonly canvas: HTMLCanvasElement,
    private readonly events: { touched: (mark: string | undefined) => void; measured: (found: Measured | undefined) => void },
  ) {
    this.renderer = new three.WebGLRenderer({ canvas, antialias: true, alpha: true });
    this.renderer.localClippingEnabled = true;
    this.renderer.setPixelRatio(Math.min(2, devicePixelRatio));
    this.controls = new OrbitControls(this.camera, canvas);
    this.controls.addEventListener("change", () => this.draw());
    const sun = new three.DirectionalLight(0xffffff, 2.2);
    sun.position.set(-3, 6, 5);
    this.scene.add(new three.HemisphereLight(0xffffff, 0x8b7d6b, 1.7), sun, this.model, this.person, this.measuring);
    let start = { x: 0, y: 0 };
    canvas.addEventListener("pointerdown", ({ clientX: x, clientY: y }) => (start = { x, y }));
    canvas.addEventListener("pointerup", (event) => {
      if (Math.hypot(event.clientX - start.x, event.clientY - start.y) < STILL) this.touch(event);
    });
  }

  resize(width: number, height: number): void {
    this.renderer.setSize(width, height, false);
    this.camera.aspect = width / Math.max(1, height);
    this.camera.updateProjectionMatrix();
    this.draw();
  }

  /** Shows the model of those bytes; whoever looks stays where they stand. */
  async load(glb: ArrayBuffer): Promise<void> {
    const { scene: model } = await new GLTFLoader().parseAsync(glb, "");
    this.clear();
    this.model = model;
    model.updateMatrixWorld(true);
    for (const group of model.children) {
      if (group.name === "fasteners") this.gather(group);
      // The ground is a mesh by itself, and no part.
      else for (const part of group.children) if (part instanceof three.Mesh) this.add(part);
    }
    const bolts = this.fasteners.map((f) => f.geometry);
    if (bolts.length > 0) this.hardware = this.metal(bolts, 0xa8aeb3);
    if (this.hardware) model.add(this.hardware);
    this.scene.add(model);
    if (!this.placed) this.look("corner");
    this.show(this.shown);
  }

  show(shown: Shown): void {
    const next = shown.built?.now;
    if (next !== undefined && next !== this.shown.built?.now && !this.calm.matches) this.dropped = performance.now();
    this.shown = shown;
    const { x: least } = this.box.min;
    const { x: most } = this.box.max;
    this.plane.constant = shown.section === undefined ? BEYOND : least + (most - least) * shown.section;
    this.person.visible = shown.person;
    const stand = this.landing.isEmpty() ? this.box : this.landing;
    this.person.position.set((least + most) / 2, stand.max.y, (stand.min.z + stand.max.z) / 2);
    for (const [mark, mesh] of this.parts) {
      mesh.visible = !shown.built?.later.has(mark);
      const lit = mark === shown.part || mark === next || (shown.step > 0 && mesh.userData["step"] === shown.step);
      mesh.material.emissive.set(lit ? CHALK : 0);
      mesh.material.emissiveIntensity = mark === shown.part || mark === next ? 0.8 : 0.4;
    }
    if (this.joints) discard(this.joints);
    this.joints = undefined;
    const own = this.fasteners.filter((f) => shown.part !== undefined && f.joins.includes(shown.part)).map((f) => f.geometry);
    if (own.length > 0) {
      this.joints = this.metal(own, CHALK);
      // Seen through the wood: where they run is what one wants to know.
      (this.joints.material as three.MeshStandardMaterial).depthTest = false;
      this.joints.renderOrder = 1;
      this.model.add(this.joints);
    }
    this.draw();
  }

  look(side: Side): void {
    const middle = this.box.getCenter(new three.Vector3());
    const size = this.box.getSize(new three.Vector3()).length();
    const far = (size / 2 / Math.sin((this.camera.fov / 2) * (Math.PI / 180))) * Math.max(1, 0.8 / this.camera.aspect);
    const from = { corner: [0.65, 0.45, 0.9], front: [0, 0.12, 1], side: [1, 0.05, 0.001], top: [0, 1, 0.001] }[side];
    this.controls.target.copy(middle);
    this.camera.position.copy(middle).addScaledVector(new three.Vector3(...from).normalize(), far);
    this.placed = true;
    this.controls.update();
    this.draw();
  }

  /** Turns or comes nearer by the keys of a keyboard. RETURNS whether the key means anything here. */
  key(key: string): boolean {
    const turns: Record<string, [number, number]> = { ArrowLeft: [-0.15, 0], ArrowRight: [0.15, 0], ArrowUp: [0, -0.1], ArrowDown: [0, 0.1] };
    const nearer: Record<string, number> = { "+": 0.85, "=": 0.85, "-": 1.18 };
    const away = new three.Spherical().setFromVector3(this.camera.position.clone().sub(this.controls.target));
    const turn = turns[key];
    if (turn) {
      away.theta += turn[0];
      away.phi = Math.min(Math.PI - 0.05, Math.max(0.05, away.phi + turn[1]));
    } else if (nearer[key]) away.radius *= nearer[key];
    else return false;
    this.camera.position.setFromSpherical(away).add(this.controls.target);
    this.controls.update();
    return true;
  }

  /** Starts to measure from place to place, or stops. */
  measure(on: boolean): void {
    this.measures = on;
    this.measured = [];
    this.mark();
  }

  close(): void {
    this.clear();
    this.controls.dispose();
    this.renderer.dispose();
  }

  private clear(): void {
    this.model.removeFromParent();
    this.model.traverse((node) => node instanceof three.Mesh && free(node));
    for (const { geometry } of this.fasteners) geometry.dispose();
    this.parts.clear();
    this.box.makeEmpty();
    this.landing.makeEmpty();
    this.fasteners.length = 0;
    this.hardware = this.joints = undefined;
  }

  private add(part: three.Mesh): void {
    part.material = withCutFace(part.material as three.MeshStandardMaterial, this.plane);
    // The loader makes names fit for paths; the engine's own mark is kept beside it.
    this.parts.set((part.userData["name"] as string | undefined) ?? part.name, part as Part);
    const kind = part.userData["kind"] as string;
    if (kind === "landing") this.landing.expandByObject(part);
    if (!ASIDE.has(kind)) this.box.expandByObject(part);
  }

  /** A thousand small meshes would be a thousand calls: they are drawn as one. */
  private gather(group: three.Object3D): void {
    for (const node of group.children) {
      const joins = (node.userData["joins"] as string[] | undefined) ?? [];
      node.traverse((mesh) => {
        if (mesh instanceof three.Mesh) this.fasteners.push({ joins, geometry: (mesh.geometry as three.BufferGeometry).clone().applyMatrix4(mesh.matrixWorld) });
      });
    }
    group.visible = false;
  }

  private metal(geometries: three.BufferGeometry[], color: number): three.Mesh {
    const material = new three.MeshStandardMaterial({ color, metalness: 0.4, roughness: 0.5, clippingPlanes: [this.plane] });
    return new three.Mesh(mergeGeometries(geometries), material);
  }

  private touch(event: PointerEvent): void {
    const rect = this.canvas.getBoundingClientRect();
    const at = new three.Vector2(((event.clientX - rect.left) / rect.width) * 2 - 1, 1 - ((event.clientY - rect.top) / rect.height) * 2);
    const ray = new three.Raycaster();
    ray.setFromCamera(at, this.camera);
    const open = [...this.parts].filter(([, mesh]) => mesh.visible);
    const hit = ray.intersectObjects(open.map(([, mesh]) => mesh), false).find((h) => this.plane.distanceToPoint(h.point) >= 0);
    if (!this.measures) return this.events.touched(open.find(([, mesh]) => mesh === hit?.object)?.[0]);
    if (!hit) return;
    this.measured = [...(this.measured.length > 1 ? [] : this.measured), this.corner(hit, event, rect)];
    this.mark();
  }

  /** The corner of the touched face that the finger is at, or else the place itself. */
  private corner(hit: three.Intersection, event: PointerEvent, rect: DOMRect): three.Vector3 {
    const { face, object } = hit;
    if (!face || !(object instanceof three.Mesh)) return hit.point;
    const places = (object.geometry as three.BufferGeometry).getAttribute("position");
    let best = { far: SNAP, point: hit.point };
    for (const corner of [face.a, face.b, face.c]) {
      const point = new three.Vector3().fromBufferAttribute(places, corner).applyMatrix4(object.matrixWorld);
      const seen = point.clone().project(this.camera);
      const far = Math.hypot(rect.left + ((seen.x + 1) / 2) * rect.width - event.clientX, rect.top + ((1 - seen.y) / 2) * rect.height - event.clientY);
      if (far < best.far) best = { far, point };
    }
    return best.point;
  }

  private mark(): void {
    for (const old of [...this.measuring.children]) discard(old as three.Mesh | three.Line);
    const [from, to] = this.measured;
    const dot = new three.SphereGeometry(0.012, 12, 8);
    for (const point of this.measured) {
      const mesh = new three.Mesh(dot, new three.MeshBasicMaterial({ color: CHALK, depthTest: false }));
      mesh.position.copy(point);
      this.measuring.add(mesh);
    }
    if (from && to) this.measuring.add(new three.Line(new three.BufferGeometry().setFromPoints([from, to]), new three.LineBasicMaterial({ color: CHALK, depthTest: false })));
    const way = from && to?.clone().sub(from).divideScalar(INCH);
    // The model's x runs across, y up, z out from the house.
    this.events.measured(way && { straight: way.length(), out: Math.abs(way.z), across: Math.abs(way.x), up: Math.abs(way.y) });
    this.draw();
  }

  /** Draws once, when the browser next does. */
  private draw(): void {
    if (this.asked) return;
    this.asked = true;
    requestAnimationFrame(() => {
      this.asked = false;
      const near = this.camera.position.distanceTo(this.controls.target) < NEAR;
      if (this.hardware) this.hardware.visible = near && !this.shown.built;
      const now = this.shown.built && this.parts.get(this.shown.built.now);
      const left = 1 - (performance.now() - this.dropped) / DROP.time;
      if (now && left > 0) {
        const home = now.position.y;
        now.position.y = home + DROP.height * left * left;
        this.renderer.render(this.scene, this.camera);
        now.position.y = home;
        this.draw();
      } else this.renderer.render(this.scene, this.camera);
    });
  }
}
