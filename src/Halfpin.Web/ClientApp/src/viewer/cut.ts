import { BufferAttribute, BufferGeometry, DoubleSide, Group, Mesh, type ShaderMaterial } from "three";
import type { ViewCamera } from "./camera";
import { Ink } from "./ink";
import type { LabelSheet } from "./labels";
import type { Pen } from "./pen";
import { fillMaterial, hatchMaterial, type Shared } from "./paper";
import type { Cut, Limb, Sector, Structure, Vec, Zone } from "./scene";
import { pointAt, radiusAt, reaches, ringAt } from "./surface";
import type { Theme } from "./theme";

/** The band of corridors round the skin: its distance from the skin and its width. */
const offSkinMm = 4, bandMm = 9;

/** Width of the picture from which the corridors say their reasons, CSS px. */
const roomyPx = 600;

const zones: Zone[] = ["preferred", "safe", "caution", "avoid"];

const signOf: Record<Zone, string> = { preferred: "✓ preferred", safe: "safe", caution: "! caution", avoid: "✕ avoid" };

/** The cut at the chosen level: its ring, the corridors round it, the bone's section and what else lies there. */
export class CutPlane {
  readonly group = new Group();
  /** Points of the ring, by which it is taken hold of. */
  ring: Vec[] = [];
  /** Points round the band of corridors, which the picture must hold. */
  rim: Vec[] = [];
  private readonly skinRing: Ink;
  private readonly section: Ink;
  private readonly bounds: Ink;
  private readonly face: Mesh;
  private readonly faceFill: ShaderMaterial;
  private readonly bands = new Map<Zone, Mesh<BufferGeometry, ShaderMaterial>>();
  private cut: Cut | null = null;
  private limb: Limb | null = null;

  constructor(shared: Shared, theme: Theme) {
    this.skinRing = new Ink(shared, theme.accent, { widthPx: 1.4, raisedMm: 0.5 });
    this.section = new Ink(shared, theme.boneEdge, { widthPx: 1.4, raisedMm: 1 });
    this.bounds = new Ink(shared, theme.soft, { widthPx: 1 });
    this.faceFill = fillMaterial(shared, theme.cutBone, theme.boneEdge, { tone: 0, side: DoubleSide });
    this.face = new Mesh(new BufferGeometry(), this.faceFill);
    this.group.add(this.skinRing.mesh, this.section.mesh, this.bounds.mesh, this.face);
    // Full, sparse, dense and crossed: the worse the zone, the more ink.
    const looks: Record<Zone, ShaderMaterial> = {
      preferred: hatchMaterial(shared, theme.ok, 0.5, 0, false),
      safe: hatchMaterial(shared, theme.ok, 0.12, 0, false),
      caution: hatchMaterial(shared, theme.care, 0.08, 6, false),
      avoid: hatchMaterial(shared, theme.bad, 0.08, 6, true),
    };
    for (const zone of zones) {
      const band = new Mesh(new BufferGeometry(), looks[zone]);
      band.frustumCulled = false;
      this.bands.set(zone, band);
      this.group.add(band);
    }
  }

  set(cut: Cut | null, limb: Limb | null): void {
    this.cut = cut;
    this.limb = limb;
    for (const ink of this.inks) ink.clear();
    this.ring = [];
    this.rim = [];
    if (cut && limb) this.draw(cut, limb);
    for (const ink of this.inks) ink.flush();
  }

  /** The face of the cut bone shows only in a section, and nothing of the cut beside a bent shape, which has left its plane. */
  look(isSection: boolean, isBent: boolean): void {
    this.group.visible = !isBent && this.ring.length > 0;
    this.face.visible = isSection;
  }

  /** Words at the plane; the free side of the picture is the one away from the frame. */
  label(camera: ViewCamera, freeSide: -1 | 1, labels: LabelSheet, pen: Pen): void {
    const { cut, limb } = this;
    if (!cut || !limb) return;
    const tilt = Math.abs(camera.toward[2]);
    for (const sector of tilt > 0.5 ? cut.sectors : []) {
      const span = spanOf(sector.fromDeg, sector.toDeg), azimuth = sector.fromDeg + span / 2;
      const r = radiusAt(limb.skin, cut.levelMm, azimuth) + offSkinMm + bandMm;
      const p = camera.project(pointAt(cut.levelMm, azimuth, r)), axis = camera.project(pointAt(cut.levelMm, 0, 0));
      const lean = Math.abs(p.x - axis.x) < 12 ? 0 : p.x > axis.x ? 1 : -1;
      const lift = lean === 0 ? (p.y > axis.y ? 12 : -12) : 0;
      const isRoomy = tilt > 0.9 && camera.width >= roomyPx;
      labels.add(`sector${azimuth}`, isRoomy ? wordsOf(sector) : signOf[sector.zone], p.x, p.y + lift, { kind: `zone ${sector.zone}`, lean, rank: 4, around: true });
    }
    for (const s of tilt > 0.8 ? cut.structures : []) {
      const p = camera.project(pointAt(cut.levelMm, s.azimuthDeg, s.radiusMm));
      labels.block(p.x - 4, p.y - 4, p.x + 4, p.y + 4);
      pen.add(`structure ${s.kind}`, markOf(s, p.x, p.y));
      const lean = camera.direction(pointAt(0, s.azimuthDeg, 1))[0] < 0 ? -1 : 1;
      labels.add(`structure ${s.name}`, s.name, p.x, p.y, { kind: `structure ${s.kind}`, lean, rank: 5, around: true });
    }
    const text = `${tilt > 0.9 ? "section" : "cut"} at ${Math.round(cut.levelMm)} mm`;
    const end = this.ring.map((p) => camera.project(p)).reduce((a, b) => ((b.x - a.x) * freeSide > 0 ? b : a));
    if (tilt > 0.9) labels.add("cut", text, camera.width / 2, camera.height - 14, { kind: "cut", rank: 0 });
    else labels.add("cut", text, end.x + freeSide * 8, end.y, { kind: "cut", lean: freeSide, rank: 2, around: true });
  }

  dispose(): void {
    for (const ink of this.inks) ink.dispose();
    this.face.geometry.dispose();
    this.faceFill.dispose();
    for (const band of this.bands.values()) {
      band.geometry.dispose();
      band.material.dispose();
    }
  }

  private get inks(): Ink[] {
    return [this.skinRing, this.section, this.bounds];
  }

  private draw(cut: Cut, limb: Limb): void {
    const level = cut.levelMm;
    this.ring = ringAt(limb.skin, level, 72);
    this.rim = Array.from({ length: 36 }, (_, i) => pointAt(level, 10 * i, radiusAt(limb.skin, level, 10 * i) + offSkinMm + bandMm));
    this.skinRing.polyline(this.ring);
    if (reaches(limb.bone, level)) {
      const bone = ringAt(limb.bone, level, 72);
      const canal = reaches(limb.canal, level) ? ringAt(limb.canal, level, 72) : bone.map(() => pointAt(level, 0, 0));
      this.section.polyline(bone);
      this.section.polyline(canal);
      this.fill(this.face.geometry, [bone.map((p, i) => [p, canal[i]!])]);
    } else {
      this.fill(this.face.geometry, []);
    }
    for (const zone of zones) {
      const strips = cut.sectors.filter((s) => s.zone === zone).map((s) => {
        const span = spanOf(s.fromDeg, s.toDeg), count = Math.max(1, Math.ceil(span / 3));
        return Array.from({ length: count + 1 }, (_, i) => {
          const azimuth = s.fromDeg + (span * i) / count, r = radiusAt(limb.skin, level, azimuth) + offSkinMm;
          return [pointAt(level, azimuth, r), pointAt(level, azimuth, r + bandMm)] as [number[], number[]];
        });
      });
      this.fill(this.bands.get(zone)!.geometry, strips);
      for (const strip of strips) {
        this.bounds.polyline(strip.map((s) => s[0]));
        this.bounds.polyline(strip.map((s) => s[1]));
        for (const end of [strip[0]!, strip.at(-1)!]) this.bounds.segment(end[0], end[1]);
      }
    }
  }

  /** Bands between two lines each, as triangles facing distally. */
  private fill(geometry: BufferGeometry, strips: [ArrayLike<number>, ArrayLike<number>][][]): void {
    geometry.dispose();
    const positions: number[] = [], triangles: number[] = [];
    for (const strip of strips) {
      const first = positions.length / 3;
      for (const [a, b] of strip) positions.push(a[0]!, a[1]!, a[2]!, b[0]!, b[1]!, b[2]!);
      for (let i = 0; i < strip.length - 1; i++) {
        const k = first + 2 * i;
        triangles.push(k, k + 1, k + 2, k + 1, k + 3, k + 2);
      }
    }
    geometry.setAttribute("position", new BufferAttribute(new Float32Array(positions), 3));
    geometry.setAttribute("normal", new BufferAttribute(new Float32Array(positions.length).fill(0).map((_, i) => (i % 3 === 2 ? -1 : 0)), 3));
    geometry.setAttribute("moved", new BufferAttribute(new Float32Array(positions.length), 3));
    geometry.setIndex(triangles);
    this.face.frustumCulled = false;
  }
}

/** The zone and why, without saying the zone twice. */
function wordsOf(sector: Sector): string {
  const sign = signOf[sector.zone];
  if (!sector.words || sector.words === sector.zone) return sign;
  return sector.words.includes(sector.zone) ? sign.replace(sector.zone, sector.words) : `${sign}: ${sector.words}`;
}

/** A mark for each kind of structure, told apart by its shape. */
function markOf(s: Structure, x: number, y: number): string {
  if (s.kind === "nerve") return `M${x - 4} ${y + 3}h8l-4 -7z`;
  if (s.kind === "tendon") return `M${x - 3} ${y - 3}h6v6h-6z`;
  return `M${x - 3.5} ${y}a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0 -7 0z`;
}

function spanOf(from: number, to: number): number {
  return (((to - from) % 360) + 360) % 360 || 360;
}
