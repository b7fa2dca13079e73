// Trim by plane, then volume, with the public library manifold-3d, on the mesh and planes that our own side wrote.
import { readFileSync } from 'node:fs';
import Module from 'manifold-3d';

const folder = process.argv[2];
const wasm = await Module();
wasm.setup();
const vertices = [], triangles = [];
for (const line of readFileSync(`${folder}/mesh.txt`, 'utf8').trim().split('\n')) {
  const [kind, ...numbers] = line.split(' ');
  (kind === 'v' ? vertices : triangles).push(...numbers.map(Number));
}
const mesh = new wasm.Mesh({ numProp: 3, vertProperties: new Float32Array(vertices), triVerts: new Uint32Array(triangles) });
mesh.merge();
const solid = new wasm.Manifold(mesh);
for (const attitude of ['near level', 'any', 'near perpendicular', '30-60 degrees']) {
  const planes = readFileSync(`${folder}/planes-${attitude.replaceAll(' ', '-')}.txt`, 'utf8').trim().split('\n')
    .map(line => line.split(' ').map(Number)).slice(0, 60);
  let best = Infinity;
  for (let round = 0; round < 3; round++) {
    const start = performance.now();
    for (const [x, y, z, d] of planes) {
      const wet = solid.trimByPlane([-x, -y, -z], -d);
      wet.volume();
      wet.delete();
    }
    best = Math.min(best, (performance.now() - start) * 1000 / planes.length);
  }
  const [x, y, z, d] = planes[0];
  console.log(`manifold-3d\t${attitude}\t${best.toFixed(1)}\t${solid.trimByPlane([-x, -y, -z], -d).volume().toFixed(1)}`);
}
