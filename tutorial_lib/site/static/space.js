// The bed in space: the glTF of its pieces, turned by finger, mouse or keys; pieces of a step lit; pulled apart.

import * as THREE from "./parts/three/three.module.min.js";
import { OrbitControls } from "./parts/three/OrbitControls.js";
import { GLTFLoader } from "./parts/three/GLTFLoader.js";

const TURN = 0.12; // of a full key press [rad]
const AWAY = 0.6; // pulled apart at most, as a share of each piece's place from the middle

export class Space {
  constructor(canvas, slider) {
    this.canvas = canvas;
    this.renderer = new THREE.WebGLRenderer({ canvas, antialias: true, alpha: true });
    this.scene = new THREE.Scene();
    this.camera = new THREE.PerspectiveCamera(35, 1, 0.01, 100);
    this.scene.add(new THREE.HemisphereLight(0xffffff, 0x998877, 2.2), this.sun());
    this.controls = new OrbitControls(this.camera, canvas);
    this.controls.addEventListener("change", () => this.draw());
    slider.addEventListener("input", () => this.apart(slider.value / 100));
    canvas.addEventListener("keydown", (event) => this.key(event));
    new ResizeObserver(() => this.draw()).observe(canvas);
    this.pieces = [];
    this.share = 0;
  }

  sun() {
    const light = new THREE.DirectionalLight(0xffffff, 1.6);
    light.position.set(1, 3, 2);
    return light;
  }

  async show(text) {
    const { scene } = await new GLTFLoader().parseAsync(text, "");
    if (this.bed) this.scene.remove(this.bed);
    this.bed = scene;
    this.scene.add(scene);
    this.pieces = [];
    scene.traverse((node) => node.isMesh && this.pieces.push(this.piece(node)));
    const box = new THREE.Box3().setFromObject(scene);
    this.middle = box.getCenter(new THREE.Vector3());
    const size = box.getSize(new THREE.Vector3()).length();
    if (!this.placed) {
      this.camera.position.copy(this.middle).add(new THREE.Vector3(-0.75, 0.6, 0.95).multiplyScalar(size));
      this.controls.target.copy(this.middle);
      this.controls.update();
      this.placed = true;
    }
    this.apart(this.share);
    this.light(this.lit || []);
  }

  piece(mesh) {
    const box = new THREE.Box3().setFromObject(mesh);
    const edges = new THREE.LineSegments(new THREE.EdgesGeometry(mesh.geometry, 20), new THREE.LineBasicMaterial({ color: 0x1a1206 }));
    mesh.add(edges);
    mesh.material = mesh.material.clone();
    return { mesh, label: mesh.name || mesh.parent.name, at: mesh.position.clone(), middle: box.getCenter(new THREE.Vector3()), colour: mesh.material.color.clone() };
  }

  apart(share) {
    this.share = share;
    for (const { mesh, at, middle } of this.pieces) {
      const way = middle.clone().sub(this.middle).multiplyScalar(share * AWAY);
      mesh.position.copy(at).add(way);
    }
    this.draw();
  }

  light(labels) {
    this.lit = labels;
    const lit = new Set(labels.map(plain));
    for (const { mesh, label, colour } of this.pieces) {
      const on = lit.has(plain(label));
      mesh.material.color.copy(on ? new THREE.Color(0x56b4e9) : colour);
    }
    this.draw();
  }

  key(event) {
    const ways = { ArrowLeft: [-TURN, 0], ArrowRight: [TURN, 0], ArrowUp: [0, -TURN], ArrowDown: [0, TURN] };
    const near = { "+": 0.9, "=": 0.9, "-": 1.1, "−": 1.1 };
    const from = this.camera.position.clone().sub(this.controls.target);
    if (ways[event.key]) {
      const [around, over] = ways[event.key];
      const ball = new THREE.Spherical().setFromVector3(from);
      ball.theta += around;
      ball.phi = Math.min(Math.max(ball.phi + over, 0.05), Math.PI - 0.05);
      from.setFromSpherical(ball);
    } else if (near[event.key]) from.multiplyScalar(near[event.key]);
    else return;
    event.preventDefault();
    this.camera.position.copy(this.controls.target).add(from);
    this.controls.update();
    this.draw();
  }

  draw() {
    const { clientWidth: wide, clientHeight: high } = this.canvas;
    if (!wide || !high) return;
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.renderer.setSize(wide, high, false);
    this.camera.aspect = wide / high;
    this.camera.updateProjectionMatrix();
    this.renderer.render(this.scene, this.camera);
  }
}

const plain = (name) => name.replace(/[^\w]+/g, "").toLowerCase(); // three takes blanks and signs out of names
