// The lure in the round: turned by mouse, finger or arrow keys, cut by the water where it floats, with a look inside.
import {
  AmbientLight, BufferAttribute, BufferGeometry, CircleGeometry, Color, DirectionalLight, DoubleSide, Group, Mesh, MeshBasicMaterial,
  MeshLambertMaterial, PerspectiveCamera, Scene, WebGLRenderer,
} from "three";

const stuffs = ["--wood", "--lead", "--wire"];

export function viewer(root, net) {
  const canvas = root.querySelector("canvas"), peek = root.querySelector("input");
  let renderer;
  try {
    renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  } catch (e) {
    net.invokeMethodAsync("NoView", String(e.message ?? e));
    return { show() {}, letGo() {} };
  }
  const ending = new AbortController(), on = { signal: ending.signal };
  const scene = new Scene(), camera = new PerspectiveCamera(24, 2, 10, 4000), lure = new Group();
  const light = new DirectionalLight(0xffffff, 2.2);
  scene.add(new AmbientLight(0xffffff, 1.3), light, lure);
  const water = new Mesh(new CircleGeometry(1, 72), new MeshBasicMaterial({ transparent: true, opacity: 0.55, side: DoubleSide, depthWrite: false }));
  water.rotation.x = -Math.PI / 2;
  water.renderOrder = 2;
  scene.add(water);
  let turn = 0.5, tilt = 0.3, wide = 100, tall = 50, asked = false;
  const colour = (name) => new Color(getComputedStyle(root).getPropertyValue(name).trim());

  // Wood is dry above the water and seen through it below; the line between is drawn as ink would draw it.
  function wet(material) {
    material.onBeforeCompile = (shader) => {
      shader.uniforms.wetColour = { value: colour("--water") };
      shader.uniforms.afloat = { value: lure.userData.afloat ? 1 : 0 };
      shader.uniforms.lineColour = { value: colour("--surface") };
      shader.vertexShader = "varying float high;\n" + shader.vertexShader.replace("#include <project_vertex>", "#include <project_vertex>\nhigh = (modelMatrix * vec4(transformed, 1.0)).y;");
      shader.fragmentShader = "varying float high; uniform vec3 wetColour, lineColour; uniform float afloat;\n" + shader.fragmentShader.replace("#include <dithering_fragment>",
        `#include <dithering_fragment>
         float soft = fwidth(high) + 1e-4;
         gl_FragColor.rgb = mix(mix(gl_FragColor.rgb, wetColour, 0.3 * afloat), gl_FragColor.rgb, smoothstep(-soft, soft, high));
         gl_FragColor.rgb = mix(lineColour, gl_FragColor.rgb, max(1.0 - afloat, smoothstep(0.35, 0.35 + 2.0 * soft, abs(high))));`);
    };
    return material;
  }

  function draw() {
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => {
      asked = false;
      const box = canvas.getBoundingClientRect();
      if (!box.width || ending.signal.aborted) return;
      renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
      renderer.setSize(box.width, box.height, false);
      camera.aspect = box.width / box.height;
      const far = Math.max((1.12 * wide) / camera.aspect, tall) / Math.tan((camera.fov * Math.PI) / 360) * 1.16;
      camera.position.set(far * Math.sin(turn) * Math.cos(tilt), lure.position.y + far * Math.sin(tilt), far * Math.cos(turn) * Math.cos(tilt));
      camera.lookAt(0, lure.userData.middle ?? 0, 0);
      light.position.copy(camera.position).add({ x: -wide, y: wide * 1.4, z: 0 });
      camera.updateProjectionMatrix();
      renderer.render(scene, camera);
    });
  }

  let last = null;
  canvas.addEventListener("pointerdown", (e) => { last = [e.clientX, e.clientY]; canvas.setPointerCapture(e.pointerId); }, on);
  canvas.addEventListener("pointermove", (e) => {
    if (!last) return;
    turn -= (e.clientX - last[0]) * 0.009;
    tilt = Math.max(-1.4, Math.min(1.4, tilt + (e.clientY - last[1]) * 0.007));
    last = [e.clientX, e.clientY];
    draw();
  }, on);
  for (const end of ["pointerup", "pointercancel"]) canvas.addEventListener(end, () => { last = null; }, on);
  canvas.addEventListener("keydown", (e) => {
    const [a, b] = { ArrowLeft: [0.12, 0], ArrowRight: [-0.12, 0], ArrowUp: [0, 0.1], ArrowDown: [0, -0.1] }[e.key] ?? [0, 0];
    if (!a && !b) return;
    e.preventDefault();
    turn += a;
    tilt = Math.max(-1.4, Math.min(1.4, tilt + b));
    draw();
  }, on);
  peek.addEventListener("change", () => { paint(); draw(); }, on);
  const scheme = matchMedia("(prefers-color-scheme: dark)");
  scheme.addEventListener("change", () => { repaint(); draw(); }, on);
  const resized = new ResizeObserver(draw);
  resized.observe(canvas);

  function paint() {
    for (const mesh of lure.children) {
      if (mesh.userData.stuff !== 0) continue;
      mesh.material.transparent = peek.checked;
      mesh.material.opacity = peek.checked ? (scheme.matches ? 0.5 : 0.42) : 1;
      mesh.material.depthWrite = !peek.checked;
      mesh.material.needsUpdate = true;
      mesh.renderOrder = peek.checked ? 1 : 0;
    }
  }
  function repaint() {
    water.material.color = colour("--water");
    for (const mesh of lure.children) {
      const visible = mesh.material;
      mesh.material = wet(new MeshLambertMaterial({ color: colour(stuffs[mesh.userData.stuff]) }));
      visible.dispose();
    }
    paint();
  }

  return {
    // Bytes arrive unaligned: a copy is aligned.
    show(bytes) {
      const buffer = bytes.slice().buffer, numbers = new Int32Array(buffer);
      for (const old of [...lure.children]) { old.geometry.dispose(); old.material.dispose(); lure.remove(old); }
      let at = 1, left = Infinity, right = -Infinity, low = Infinity, high = -Infinity, near = Infinity, far = -Infinity;
      for (let k = 0; k < numbers[0]; k++) {
        const [stuff, places, indices] = numbers.subarray(at, at + 3);
        const geometry = new BufferGeometry();
        const points = new Float32Array(buffer, (at + 3) * 4, places);
        geometry.setAttribute("position", new BufferAttribute(points, 3));
        geometry.setIndex(new BufferAttribute(new Uint32Array(buffer, (at + 3 + places) * 4, indices), 1));
        geometry.computeVertexNormals();
        at += 3 + places + indices;
        const mesh = new Mesh(geometry, new MeshLambertMaterial());
        mesh.userData.stuff = stuff;
        lure.add(mesh);
        if (stuff === 0) for (let i = 0; i < points.length; i += 3) {
          left = Math.min(left, points[i]); right = Math.max(right, points[i]);
          low = Math.min(low, points[i + 1]); high = Math.max(high, points[i + 1]);
          near = Math.min(near, points[i + 2]); far = Math.max(far, points[i + 2]);
        }
      }
      lure.position.set(-(left + right) / 2, 0, -(near + far) / 2);
      lure.userData.middle = (low + high) / 2;
      // A sunk lure is looked at under water, where no line crosses it.
      lure.userData.afloat = water.visible = high > 0;
      wide = Math.max(right - left, far - near, 60) / 2;
      tall = (high - low) / 2 + 0.35 * wide;
      water.scale.setScalar(wide * 1.1);
      repaint();
      draw();
      canvas.dataset.drawn = String(numbers[0]);
    },
    letGo() {
      ending.abort();
      resized.disconnect();
      for (const old of lure.children) { old.geometry.dispose(); old.material.dispose(); }
      renderer.dispose();
    },
  };
}
