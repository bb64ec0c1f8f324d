import assert from "node:assert/strict";
import { after, test } from "node:test";
import { createServer } from "vite";

// The modules are loaded as the bundler sees them, so that the tests need no compiled copy.
const vite = await createServer({ configFile: false, logLevel: "error", appType: "custom", server: { middlewareMode: true, ws: false } });
after(() => vite.close());
const { faceLevel, gridBetween, normalAt, pointAt, radiusAt } = await vite.ssrLoadModule("/src/viewer/surface.ts");
const { fragmentEnds } = await vite.ssrLoadModule("/src/viewer/fracture.ts");
const { ViewCamera } = await vite.ssrLoadModule("/src/viewer/camera.ts");
const { dominant, pick, snapped } = await vite.ssrLoadModule("/src/viewer/pick.ts");

const cylinder = (radius, to) => ({ levelsMm: [0, to], radiiMm: [Array(24).fill(radius), Array(24).fill(radius)] });
const close = (a, b, within = 1e-9) => assert.ok(Math.abs(a - b) <= within, `${a} is not ${b}`);
const camera = (text, side) => {
  const c = new ViewCamera();
  c.width = 801, c.height = 633;
  c.refresh(side);
  c.set(text);
  c.fit([[-61, -61, 0], [61, 61, -357]], { left: 7, right: 7, top: 7, bottom: 7 });
  c.update();
  return c;
};
const handle = (motion, extra = {}) => ({ part: "p1", motion, pointer: "/x", value: 37, factor: 1, min: 12, max: 91, step: 5, label: "", unit: "mm", ...extra });
const frame = { id: "f", pins: [{ id: "p1", tip: [-17, 0, -111], entry: [17, 0, -111], outer: [93, 0, -111], diameterMm: 5, verdict: "pass" }], rods: [], clamps: [] };

test("radius at a given azimuth of the table is the table's", () => {
  const surface = { levelsMm: [3, 47], radiiMm: [[11, 17, 13, 19], [23, 29, 31, 37]] };
  close(radiusAt(surface, 3, 90), 17);
  close(radiusAt(surface, 25, 270), 28);
  close(radiusAt(surface, 47, -90), 37);
});

test("radius beyond the ends is that of the end", () => close(radiusAt(cylinder(13.7, 211), 400, 31), 13.7));

test("normal of a cylinder points outward", () => {
  const n = normalAt(cylinder(13.7, 211), 101, 37), p = pointAt(0, 37, 1);
  for (const k of [0, 1, 2]) close(n[k], p[k], 1e-6);
});

test("triangles of a grid face outward", () => {
  const { positions, normals, triangles } = gridBetween(cylinder(13.7, 211), () => 17, () => 203);
  const at = (i) => [0, 1, 2].map((k) => positions[3 * i + k]);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => at(triangles[t + k])), u = a.map((v, k) => b[k] - v), v = a.map((w, k) => c[k] - w);
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    assert.ok(n.reduce((s, x, k) => s + x * normals[3 * triangles[t] + k], 0) > 0);
  }
});

test("a fracture slopes distally toward its tilt azimuth, by the tangent of its tilt", () => {
  const fracture = { levelMm: 143, gapMm: 7, tiltDeg: 31, tiltAzimuthDeg: 67 };
  const bone = cylinder(13.7, 351);
  const rise = 13.7 * Math.tan((31 * Math.PI) / 180);
  close(faceLevel(bone, fracture, -1, 67), 143 - 3.5 + rise, 1e-6);
  close(faceLevel(bone, fracture, 1, 247), 143 + 3.5 - rise, 1e-6);
});

test("fragments of two fractures lie in order with the gaps between", () => {
  const limb = { bone: cylinder(13.7, 351), fractures: [{ levelMm: 223, gapMm: 9, tiltDeg: 0, tiltAzimuthDeg: 0 }, { levelMm: 131, gapMm: 5, tiltDeg: 0, tiltAzimuthDeg: 0 }] };
  const levels = fragmentEnds(limb).map((ends) => ends.map((end) => end(41)));
  assert.deepEqual(levels, [[0, 128.5], [133.5, 218.5], [227.5, 351]]);
});

test("medial lies right in the front view of a right limb and left in that of a left one", () => {
  for (const [side, sign] of [["right", 1], ["left", -1]]) {
    const c = camera("front", side);
    assert.ok(sign * (c.project([0, 29, -100]).x - c.project([0, 0, -100]).x) > 0);
  }
});

test("seen from the foot anterior is up and medial where the front view has it", () => {
  for (const side of ["right", "left"]) {
    const c = camera("foot", side), front = camera("front", side), o = c.project([0, 0, -100]);
    assert.ok(c.project([23, 0, -100]).y < o.y);
    assert.equal(Math.sign(c.direction([0, 1, 0])[0]), Math.sign(front.direction([0, 1, 0])[0]));
  }
});

test("the picture of a left limb is the mirror image of that of a right one", () => {
  for (const text of ["front", "medial", "lateral", "foot", "oblique", "o:37,-19,1"]) {
    const r = camera(text, "right").direction([7, 11, 13]), l = camera(text, "left").direction([7, 11, 13]);
    close(r[0], -l[0]);
    close(r[1], l[1]);
  }
});

test("a camera's text gives the same camera back", () => {
  const c = camera("o:35,12,1.2,0.031,-0.017", "left");
  assert.equal(c.text, "o:35,12,1.2,0.031,-0.017");
  const d = camera(c.text, "left");
  assert.deepEqual(d.project([3, 5, -71]), c.project([3, 5, -71]));
});

test("text that is no camera changes nothing", () => {
  const c = camera("medial", "right");
  for (const text of ["", "o:", "o:1,2", "o:1,x,3", "toString", "behind"]) assert.equal(c.set(text), false);
  assert.equal(c.text, "medial");
});

test("fitted points lie within the margins", () => {
  const c = camera("oblique", "left");
  for (const p of [[-61, -61, 0], [61, 61, -357]]) {
    const s = c.project(p);
    assert.ok(s.x >= 6.99 && s.x <= 794.01 && s.y >= 6.99 && s.y <= 626.01);
  }
});

test("enlarging about a point leaves that point where it is", () => {
  const c = camera("front", "right"), p = [11, 23, -171], s = c.project(p);
  c.enlarge(1.7, s.x, s.y);
  c.update();
  close(c.project(p).x, s.x, 1e-6);
  close(c.project(p).y, s.y, 1e-6);
});

test("the pin under the pointer is picked and one too far away is not", () => {
  const c = camera("medial", "right"), s = c.project([60, 0, -111]);
  assert.equal(pick(frame, c, s.x, s.y + 6, 10)?.part, "p1");
  assert.equal(pick(frame, c, s.x, s.y + 40, 10), null);
});

test("a movement down the picture takes the handle along the bone, one across it the handle outward", () => {
  const c = camera("medial", "right"), both = [handle("along"), handle("out")];
  assert.equal(dominant(both, frame, c, [80, 0, -111], 1, 9).handle.motion, "along");
  assert.equal(dominant(both, frame, c, [80, 0, -111], 9, 1).handle.motion, "out");
});

test("a handle whose movement is seen end-on cannot be taken", () => {
  assert.equal(dominant([handle("along")], frame, camera("foot", "right"), [80, 0, -111], 3, 9), null);
});

test("values keep to the steps and the bounds", () => {
  assert.equal(snapped(handle("out"), 41.2, false), 40);
  assert.equal(snapped(handle("out"), 41.2, true), 41);
  assert.equal(snapped(handle("out"), 300, false), 91);
  assert.equal(snapped(handle("out"), -300, true), 12);
  assert.equal(snapped(handle("out", { step: 0.1 }), 41.234, true), 41.2);
});
