// The job page's model: turned with a finger or the mouse. The page stands without it: where there is no WebGL, the
// tables, cards and findings are all there.
import {AmbientLight, Box3, Color, DirectionalLight, HemisphereLight, PerspectiveCamera, Raycaster, Scene, Vector2,
  Vector3, WebGLRenderer} from 'three';
import {OrbitControls} from 'three/addons/controls/OrbitControls.js';
import {GLTFLoader} from 'three/addons/loaders/GLTFLoader.js';

const stage = document.getElementById('model');
const note = document.getElementById('model-note');

function modelBytes() {
  const text = atob(document.getElementById('model-data').textContent.trim());
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; ++i) bytes[i] = text.charCodeAt(i);
  return bytes.buffer;
}

function groundColour() {
  return new Color(getComputedStyle(document.documentElement).getPropertyValue('--stage').trim() || '#ffffff');
}

function show(gltf, renderer) {
  const scene = new Scene();
  scene.background = groundColour();
  scene.add(gltf.scene);
  scene.add(new AmbientLight(0xffffff, 0.6));
  scene.add(new HemisphereLight(0xffffff, 0x777777, 1.4));
  const camera = new PerspectiveCamera(35, 1, 0.01, 100);
  const sun = new DirectionalLight(0xffffff, 1.8);
  sun.position.set(1, 2, 2);
  camera.add(sun);
  scene.add(camera);
  const controls = new OrbitControls(camera, renderer.domElement);
  const pipes = [];
  gltf.scene.traverse(o => { if (o.isMesh && pipeOf(o) !== undefined) pipes.push(o); });
  const box = new Box3();
  (pipes.length ? pipes : [gltf.scene]).forEach(o => box.expandByObject(o));

  const views = {iso: [1, 0.8, 1.4], front: [0, 0.0001, 1], above: [0, 1, 0.0001], side: [1, 0.0001, 0]};
  let asked = views.iso;  // kept whole in sight, however the page is turned, until the person moves it
  const draw = () => renderer.render(scene, camera);
  function look(x, y, z) {
    const centre = box.getCenter(new Vector3());
    const radius = Math.max(box.getSize(new Vector3()).length() / 2, 0.01);
    const half = Math.atan(Math.tan(camera.fov * Math.PI / 360) * Math.min(1, camera.aspect));
    const away = radius / Math.sin(half) * 1.05;
    camera.near = away / 1000;
    camera.far = away * 20;
    camera.position.copy(centre).addScaledVector(new Vector3(x, y, z).normalize(), away);
    camera.updateProjectionMatrix();
    controls.target.copy(centre);
    controls.update();
    draw();
  }
  function fit() {
    const width = stage.clientWidth, height = stage.clientHeight;
    renderer.setSize(width, height, false);
    camera.aspect = width / Math.max(height, 1);
    camera.updateProjectionMatrix();
    if (asked) look(...asked);
    draw();
  }
  controls.addEventListener('start', () => { asked = null; });
  controls.addEventListener('change', () => {
    draw();
    stage.dataset.camera = camera.position.toArray().map(v => v.toFixed(4)).join(' ');
  });
  new ResizeObserver(fit).observe(stage);
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => {
    scene.background = groundColour();
    draw();
  });
  fit();
  document.querySelectorAll('[data-view]').forEach(button => {
    button.addEventListener('click', () => {
      asked = views[button.dataset.view];
      look(...asked);
    });
  });
  document.getElementById('show-fixtures').addEventListener('change', event => {
    gltf.scene.traverse(o => { if (o.isMesh && pipeOf(o) === undefined) o.visible = event.target.checked; });
    draw();
  });
  pickPipes(pipes, camera, renderer, draw);
}

// Index of the run in the job, or undefined for a fixture.
function pipeOf(object) {
  for (let o = object; o; o = o.parent) if (o.userData && o.userData.run !== undefined) return o.userData.run;
  return undefined;
}

function pickPipes(pipes, camera, renderer, draw) {
  let down = null;
  renderer.domElement.addEventListener('pointerdown', e => { down = [e.clientX, e.clientY]; });
  renderer.domElement.addEventListener('pointerup', e => {
    if (!down || Math.hypot(e.clientX - down[0], e.clientY - down[1]) > 6) return;
    const area = renderer.domElement.getBoundingClientRect();
    const at = new Vector2((e.clientX - area.left) / area.width * 2 - 1, 1 - (e.clientY - area.top) / area.height * 2);
    const ray = new Raycaster();
    ray.setFromCamera(at, camera);
    const hit = ray.intersectObjects(pipes)[0];
    const run = hit && pipeOf(hit.object);
    pipes.forEach(pipe => {
      pipe.material.emissive.set(run !== undefined && pipeOf(pipe) === run ? 0x664400 : 0);
    });
    const section = run === undefined ? null : document.getElementById('run-' + run);
    note.replaceChildren();
    if (section) {
      const link = document.createElement('a');
      link.href = '#run-' + run;
      link.textContent = section.querySelector('h2').textContent;
      note.append(link);
    }
    draw();
  });
}

// Everything that can be folded away is printed.
addEventListener('beforeprint', () => document.querySelectorAll('details:not(.licence)').forEach(d => { d.open = true; }));

try {
  const renderer = new WebGLRenderer({antialias: true, preserveDrawingBuffer: true});
  renderer.setPixelRatio(Math.min(devicePixelRatio || 1, 2));
  new GLTFLoader().parse(modelBytes(), '', gltf => {
    gltf.scene.traverse(o => { if (o.isMesh) o.material = o.material.clone(); });
    stage.prepend(renderer.domElement);
    show(gltf, renderer);
    stage.dataset.ready = 'yes';
  }, () => { stage.dataset.ready = 'no'; });
} catch (failure) {
  stage.dataset.ready = 'no';
}
if (stage.dataset.ready === 'no') note.textContent = note.dataset.without;
