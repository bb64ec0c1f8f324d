import { createViewer } from "../viewer/viewer";
import type { Bent, Clamp, Cut, FrameGeometry, Handle, Limb, Pin, Rod, Sector, Surface, Vec } from "../viewer/scene";

// An invented limb and two invented frames, to look at the drawing without a server: dev.html?frame=two&camera=oblique&bent=20.

const query = new URLSearchParams(location.search);
const length = 352, columns = 36;
const rad = Math.PI / 180;

function surface(from: number, to: number, step: number, radius: (level: number, azimuthDeg: number) => number): Surface {
  const levelsMm: number[] = [];
  for (let l = from; l <= to; l += step) levelsMm.push(l);
  return { levelsMm, radiiMm: levelsMm.map((l) => Array.from({ length: columns }, (_, i) => radius(l, (360 * i) / columns))) };
}

/** A rounded triangle with its crest at −25°, rounder and wider toward both joints. */
function boneRadius(level: number, azimuth: number): number {
  const p = level / length, ends = Math.exp(-p * 9) + Math.exp(-(1 - p) * 11);
  const size = 13 + 20 * Math.exp(-p * 10) + 9 * Math.exp(-(1 - p) * 11);
  return size * (1 + 0.15 * (1 - 0.7 * Math.min(1, ends)) * Math.cos(3 * (azimuth + 25) * rad) + 0.13 * ends * Math.cos(2 * (azimuth - 90) * rad));
}

const bone = surface(0, length, 4, boneRadius);
const canal = surface(24, length - 24, 8, (l, a) => 0.45 * boneRadius(l, a) * (1 - 0.25 * Math.cos(3 * (a + 25) * rad)));
const skin = surface(-16, length + 16, 8, (l, a) => {
  const p = l / length, calf = 26 * Math.exp(-(((p - 0.28) / 0.25) ** 2)) * Math.max(0, -Math.cos((a - 20) * rad));
  return boneRadius(Math.min(length, Math.max(0, l)), a) * 0.86 + 8 + 9 * (1 - Math.cos((a - 40) * rad)) + calf;
});

const fracture = { levelMm: 205, gapMm: 10, tiltDeg: 24, tiltAzimuthDeg: 70 };
const side = query.get("side") === "right" ? "right" : "left";
const limb: Limb = {
  side, lengthMm: length, bone, canal, skin, fractures: [fracture],
  areas: [
    { fromLevelMm: 178, toLevelMm: 232, fromAzimuthDeg: 62, toAzimuthDeg: 104, kind: "wound" },
    { fromLevelMm: 150, toLevelMm: 255, fromAzimuthDeg: -45, toAzimuthDeg: -33, kind: "incision" },
  ],
};

const at = (level: number, azimuth: number, radius: number): Vec => [radius * Math.cos(azimuth * rad), radius * Math.sin(azimuth * rad), -level];

interface Layout { azimuth: number; standoff: number; levels: number[]; name: string; first: number }

function plane({ azimuth, standoff, levels, name, first }: Layout): { pins: Pin[]; rods: Rod[]; clamps: Clamp[] } {
  const surfaceMm = (l: number) => boneRadius(l, azimuth);
  const outer = Math.max(surfaceMm(levels[0]!), surfaceMm(levels.at(-1)!)) + standoff;
  const pins = levels.map((l, i): Pin => ({
    id: `p${first + i}`, tip: at(l, azimuth + 180, boneRadius(l, azimuth + 180) + 2), entry: at(l, azimuth, surfaceMm(l)), outer: at(l, azimuth, outer + 26),
    diameterMm: 5, verdict: first + i === 2 ? "fail" : first + i === 3 ? "caution" : "pass",
  }));
  const offset = at(0, azimuth + 90, 14);
  const aside = (v: Vec): Vec => [v[0] + offset[0], v[1] + offset[1], v[2]];
  const rod: Rod = { id: name, from: aside(at(levels[0]! - 30, azimuth, outer)), to: aside(at(levels.at(-1)! + 30, azimuth, outer)), diameterMm: 11, link: false, carbon: true, verdict: "pass" };
  const clamps = levels.map((l, i): Clamp => ({ id: `c${first + i}`, onRod: aside(at(l, azimuth, outer)), onPin: at(l, azimuth, outer), state: first + i === 4 ? "loose" : "tight", verdict: "pass" }));
  return { pins, rods: [rod], clamps };
}

let near = 35, far = 95, standoff = 40, azimuth = 45;

function frame(): FrameGeometry {
  const levels = [205 - 5 - far, 205 - 5 - near, 205 + 5 + near, 205 + 5 + far];
  if (query.get("frame") !== "two") return { id: "one", ...plane({ azimuth, standoff, levels, name: "r1", first: 1 }) };
  const a = plane({ azimuth: 15, standoff, levels, name: "r1", first: 1 }), b = plane({ azimuth: 75, standoff, levels: levels.map((l) => l + 14), name: "r2", first: 5 });
  const links = [0.18, 0.82].map((t, i): Rod => {
    const on = (r: Rod): Vec => [0, 1, 2].map((k) => r.from[k]! + t * (r.to[k]! - r.from[k]!)) as Vec;
    return { id: `l${i + 1}`, from: on(a.rods[0]!), to: on(b.rods[0]!), diameterMm: 8, link: true, carbon: false, verdict: "pass" };
  });
  return { id: "two", pins: [...a.pins, ...b.pins], rods: [...a.rods, ...b.rods, ...links], clamps: [...a.clamps, ...b.clamps] };
}

function handles(): Handle[] {
  const of = (part: string, motion: Handle["motion"], pointer: string, value: number, factor: number, min: number, max: number, label: string, unit: string): Handle =>
    ({ part, motion, pointer, value, factor, min, max, step: unit === "°" ? 5 : 5, label, unit });
  const pins = [[1, "/far", far, -1], [2, "/near", near, -1], [3, "/near", near, 1], [4, "/far", far, 1]] as const;
  return [
    ...pins.map(([n, pointer, value, factor]) => of(`p${n}`, "along", pointer, value, factor, 15, 140, pointer === "/near" ? "Near pin" : "Far pin", "mm")),
    ...pins.map(([n]) => of(`p${n}`, "round", "/azimuth", azimuth, 1, -30, 100, "Direction", "°")),
    of("r1", "out", "/standoff", standoff, 1, 20, 120, "Rod to bone", "mm"), of("r1", "round", "/azimuth", azimuth, 1, -30, 100, "Direction", "°"),
  ];
}

function cutAt(levelMm: number): Cut {
  const sectors: Sector[] = ([
    [20, 70, "preferred", ""], [-10, 20, "safe", ""], [70, 85, "safe", ""], [85, 105, "caution", "saphenous nerve and vein under the skin"],
    [-70, -10, "caution", "crest and tibialis anterior"], [105, 290, "avoid", "deep calf, vessels and nerves"],
  ] as const).map(([fromDeg, toDeg, zone, words]) => ({ fromDeg, toDeg, zone, words }));
  return {
    levelMm, sectors,
    structures: [
      { name: "anterior tibial a.", azimuthDeg: -100, radiusMm: 20, kind: "artery" }, { name: "deep peroneal n.", azimuthDeg: -92, radiusMm: 24, kind: "nerve" },
      { name: "posterior tibial a.", azimuthDeg: 165, radiusMm: 29, kind: "artery" }, { name: "tibial n.", azimuthDeg: 172, radiusMm: 34, kind: "nerve" },
      { name: "great saphenous v.", azimuthDeg: 100, radiusMm: 27, kind: "vein" }, { name: "fibula", azimuthDeg: -148, radiusMm: 40, kind: "bone" },
    ],
  };
}

function bent(scale: number): Bent {
  const f = frame();
  const move = (p: Vec): Vec => {
    const above = Math.min(1, Math.max(0, (245 + p[2]) / 80));
    return [0.2 * above, 0.15 * above, -above * (1.1 + 0.012 * p[1])];
  };
  const between = (a: Vec, b: Vec): Vec[] => Array.from({ length: 9 }, (_, i) => [0, 1, 2].map((k) => a[k]! + ((b[k]! - a[k]!) * i) / 8) as Vec);
  const bar = (part: string, diameterMm: number, points: Vec[]) => ({ part, diameterMm, points, movedMm: points.map(move) });
  return {
    scale,
    lines: [...f.pins.map((p) => bar(p.id, p.diameterMm, between(p.tip, p.outer))), ...f.rods.map((r) => bar(r.id, r.diameterMm, between(r.from, r.to)))],
    fragments: [
      { levelsMm: [0, 100, 200], movedMm: [[0.2, 0.15, -1.1], [0.2, 0.15, -1.1], [0.2, 0.15, -1.1]], turnedRad: [[-0.012, 0, 0], [-0.012, 0, 0], [-0.012, 0, 0]] },
      { levelsMm: [210, length], movedMm: [[0, 0, 0], [0, 0, 0]], turnedRad: [[0, 0, 0], [0, 0, 0]] },
    ],
  };
}

const log: unknown[] = [];
let before: [number, number, number, number] | null = null;
const viewer = createViewer(document.querySelector<HTMLElement>("#stage")!, {
  selected: (part) => log.push(["selected", part]),
  dragged(handle, value, done) {
    log.push(["dragged", handle.pointer, value, done]);
    before ??= [near, far, standoff, azimuth];
    if (value === null) [near, far, standoff, azimuth] = before;
    else if (handle.pointer === "/near") near = value;
    else if (handle.pointer === "/far") far = value;
    else if (handle.pointer === "/standoff") standoff = value;
    else azimuth = value;
    if (done) before = null;
    viewer.setFrame(frame(), handles());
  },
  levelChosen(level) {
    log.push(["level", level]);
    viewer.setCut(cutAt(level));
  },
  cameraChanged: (camera) => log.push(["camera", camera]),
});
Object.assign(window, { viewer, log });
viewer.setLimb(limb);
viewer.setCut(cutAt(Number(query.get("level") ?? 150)));
viewer.setFrame(frame(), handles());
viewer.setCamera(query.get("camera") ?? "front");
viewer.select(query.get("select"));
if (query.has("bent")) viewer.setBent(bent(Number(query.get("bent"))), query.has("animate"));
