// Shows every model of the page in space: drag to turn, shift and drag to move, wheel or pinch to come nearer, double
// click to begin again; arrows, plus, minus and Home do the same. Needs WebGL 2; without it the still picture stays.
"use strict";
(() => {
  const VERTEX = `#version 300 es
    in vec3 place; in vec3 normal; in vec4 colour;
    uniform mat4 camera; uniform mat3 turn;
    out vec3 facing; out vec4 paint;
    void main() { facing = turn * normal; paint = colour; gl_Position = camera * vec4(place, 1.0); }`;
  const FRAGMENT = `#version 300 es
    precision highp float;
    in vec3 facing; in vec4 paint; out vec4 shown;
    void main() {
      vec3 n = normalize(facing);
      float key = max(dot(n, normalize(vec3(-0.4, 0.6, 0.7))), 0.0);
      float fill = max(dot(n, normalize(vec3(0.8, -0.2, 0.5))), 0.0);
      float gloss = pow(max(dot(n, normalize(vec3(-0.2, 0.35, 1.0))), 0.0), 24.0) * paint.a;
      vec3 light = paint.rgb * (0.28 + 0.62 * key + 0.22 * fill) + vec3(0.35 * gloss);
      shown = vec4(pow(light, vec3(1.0 / 2.2)), 1.0);
    }`;
  // Faces that meet at less than this are shaded as one surface, in radians.
  const CREASE = 0.6;
  const BEGIN = { yaw: -0.45, pitch: 0.75, zoom: 1, move: [0, 0] };

  const bytesOf = (text) => Uint8Array.from(atob(text.trim()), (letter) => letter.charCodeAt(0));

  // The two chunks of a GLB: what it describes, and its numbers.
  function chunksOf(bytes) {
    const view = new DataView(bytes.buffer);
    const length = view.getUint32(12, true);
    const text = new TextDecoder().decode(bytes.subarray(20, 20 + length));
    return { model: JSON.parse(text), numbers: bytes.buffer.slice(28 + length) };
  }

  function read({ model, numbers }, index) {
    const accessor = model.accessors[index];
    const view = model.bufferViews[accessor.bufferView];
    const kind = { 5126: Float32Array, 5123: Uint16Array, 5125: Uint32Array }[accessor.componentType];
    const count = accessor.count * (accessor.type === "VEC3" ? 3 : 1);
    return new kind(numbers, view.byteOffset + accessor.byteOffset, count);
  }

  const minus = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
  const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];

  // Corners of triangles with a normal each: that of the surface, or across a crease that of the triangle alone.
  function shaded(points, corners) {
    const at = (corner) => points.subarray(3 * corner, 3 * corner + 3);
    const faces = [];
    const around = new Map();
    for (let first = 0; first < corners.length; first += 3) {
      const [a, b, c] = [0, 1, 2].map((step) => at(corners[first + step]));
      const area = cross(minus(b, a), minus(c, a));
      const size = Math.hypot(...area) || 1;
      faces.push({ area, flat: area.map((part) => part / size) });
      for (let step = 0; step < 3; step++) {
        const corner = corners[first + step];
        if (!around.has(corner)) around.set(corner, []);
        around.get(corner).push(faces.length - 1);
      }
    }
    const limit = Math.cos(CREASE);
    const places = [], normals = [];
    corners.forEach((corner, index) => {
      const own = faces[Math.floor(index / 3)];
      const sum = [0, 0, 0];
      for (const other of around.get(corner)) {
        if (dot(faces[other].flat, own.flat) >= limit) {
          for (let axis = 0; axis < 3; axis++) sum[axis] += faces[other].area[axis];
        }
      }
      const size = Math.hypot(...sum) || 1;
      places.push(...at(corner));
      normals.push(...sum.map((part) => part / size));
    });
    return { places, normals };
  }

  // What is drawn, in the model's own frame, z up: one run of corners a part, and the parts by their groups.
  function sceneOf(glb) {
    const { model } = glb;
    const places = [], normals = [], colours = [], groups = new Map();
    const low = [Infinity, Infinity, Infinity], high = [-Infinity, -Infinity, -Infinity];
    for (const node of model.nodes.filter((node) => node.mesh !== undefined)) {
      const [primitive] = model.meshes[node.mesh].primitives;
      const points = read(glb, primitive.attributes.POSITION);
      const run = shaded(points, read(glb, primitive.indices));
      const look = model.materials[primitive.material].pbrMetallicRoughness;
      const start = places.length / 3, count = run.places.length / 3;
      for (const value of run.places) places.push(value);
      for (const value of run.normals) normals.push(value);
      for (let corner = 0; corner < count; corner++) {
        colours.push(...look.baseColorFactor.slice(0, 3), look.metallicFactor);
      }
      points.forEach((value, index) => {
        low[index % 3] = Math.min(low[index % 3], value);
        high[index % 3] = Math.max(high[index % 3], value);
      });
      const name = node.name.replace(/-\d+$/, "").replaceAll("-", " ");
      if (!groups.has(name)) groups.set(name, { runs: [], shown: true });
      groups.get(name).runs.push([start, count]);
    }
    return { places, normals, colours, groups, low, high };
  }

  function programOf(gl) {
    const program = gl.createProgram();
    for (const [kind, text] of [[gl.VERTEX_SHADER, VERTEX], [gl.FRAGMENT_SHADER, FRAGMENT]]) {
      const shader = gl.createShader(kind);
      gl.shaderSource(shader, text);
      gl.compileShader(shader);
      gl.attachShader(program, shader);
    }
    gl.linkProgram(program);
    if (!gl.getProgramParameter(program, gl.LINK_STATUS)) throw new Error(gl.getProgramInfoLog(program));
    return program;
  }

  // How large the whole is across and up in a view, and where its middle lies.
  function fit(scene, right, up) {
    const middle = scene.low.map((value, axis) => (value + scene.high[axis]) / 2);
    const radius = Math.hypot(...minus(scene.high, scene.low));
    const spans = [right, up].map((axis) => {
      let [least, most] = [Infinity, -Infinity];
      for (let corner = 0; corner < scene.places.length; corner += 3) {
        const along = dot(minus(scene.places.slice(corner, corner + 3), middle), axis);
        least = Math.min(least, along);
        most = Math.max(most, along);
      }
      return [most - least, (most + least) / 2];
    });
    const [[across, aside], [high, above]] = spans;
    return { across, high, radius, middle: middle.map((value, axis) => value + aside * right[axis] + above * up[axis]) };
  }

  // Parallel rays from an eye that stands at first on the side of negative y and above, x to the right, so that what is
  // equally long looks equally long.
  function camera(scene, eye, width, height) {
    const [sinYaw, cosYaw, sinPitch, cosPitch] =
      [Math.sin(eye.yaw), Math.cos(eye.yaw), Math.sin(eye.pitch), Math.cos(eye.pitch)];
    const right = [cosYaw, sinYaw, 0];
    const toward = [sinYaw * cosPitch, -cosYaw * cosPitch, sinPitch];
    const up = cross(toward, right);
    // The whole fills the canvas in the first view, and is turned about the middle of that view.
    scene.first ??= fit(scene, right, up);
    const { across, high, middle, radius } = scene.first;
    const scale = 0.94 * eye.zoom * Math.min(width / across, height / high);
    const [x, y, z] = [[right, 2 * scale / width, eye.move[0]], [up, 2 * scale / height, eye.move[1]], [toward, -1 / radius, 0]]
      .map(([axis, by, move]) => [...axis.map((part) => part * by), move - dot(axis, middle) * by]);
    const matrix = [];
    for (let column = 0; column < 4; column++) matrix.push(x[column], y[column], z[column], column === 3 ? 1 : 0);
    const turn = [0, 1, 2].flatMap((axis) => [right[axis], up[axis], toward[axis]]);
    return { matrix, turn };
  }

  function show(figure) {
    const scene = sceneOf(chunksOf(bytesOf(figure.querySelector("script[data-model]").textContent)));
    const canvas = document.createElement("canvas");
    // What was drawn is kept, so that the page can be printed.
    const gl = canvas.getContext("webgl2", { alpha: true, antialias: true, preserveDrawingBuffer: true });
    if (!gl) return;
    const program = programOf(gl);
    gl.useProgram(program);
    for (const [name, size, values] of [["place", 3, scene.places], ["normal", 3, scene.normals], ["colour", 4, scene.colours]]) {
      gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
      gl.bufferData(gl.ARRAY_BUFFER, new Float32Array(values), gl.STATIC_DRAW);
      const place = gl.getAttribLocation(program, name);
      gl.enableVertexAttribArray(place);
      gl.vertexAttribPointer(place, size, gl.FLOAT, false, 0, 0);
    }
    gl.enable(gl.DEPTH_TEST);
    gl.enable(gl.CULL_FACE);

    let eye, waiting = false;
    const draw = () => {
      waiting = false;
      const sharp = window.devicePixelRatio || 1;
      const [width, height] = [canvas.clientWidth, canvas.clientHeight].map((side) => Math.max(1, Math.round(side * sharp)));
      if (canvas.width !== width || canvas.height !== height) [canvas.width, canvas.height] = [width, height];
      gl.viewport(0, 0, width, height);
      gl.clearColor(0, 0, 0, 0);
      gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
      const { matrix, turn } = camera(scene, eye, width, height);
      gl.uniformMatrix4fv(gl.getUniformLocation(program, "camera"), false, matrix);
      gl.uniformMatrix3fv(gl.getUniformLocation(program, "turn"), false, turn);
      for (const { runs, shown } of scene.groups.values()) {
        if (shown) for (const [start, count] of runs) gl.drawArrays(gl.TRIANGLES, start, count);
      }
    };
    const redraw = () => {
      if (waiting) return;
      waiting = true;
      requestAnimationFrame(draw);
    };
    const begin = () => { eye = { ...BEGIN, move: [...BEGIN.move] }; redraw(); };
    const turn = (across, up) => {
      eye.yaw -= across;
      eye.pitch = Math.max(-Math.PI / 2, Math.min(Math.PI / 2, eye.pitch + up));
      redraw();
    };
    const move = (across, up) => { eye.move[0] += across; eye.move[1] += up; redraw(); };
    // What lies under (x, y), from -1 to 1 each way, stays there.
    const nearer = (by, x = 0, y = 0) => {
      const zoom = Math.max(0.5, Math.min(60, eye.zoom * by));
      const grown = zoom / eye.zoom;
      eye.move = [x - (x - eye.move[0]) * grown, y - (y - eye.move[1]) * grown];
      eye.zoom = zoom;
      redraw();
    };
    const on = (x, y) => {
      const box = canvas.getBoundingClientRect();
      return [2 * (x - box.left) / box.width - 1, 1 - 2 * (y - box.top) / box.height];
    };

    const held = new Map();
    canvas.addEventListener("pointerdown", (event) => {
      canvas.setPointerCapture(event.pointerId);
      held.set(event.pointerId, [event.clientX, event.clientY]);
    });
    for (const kind of ["pointerup", "pointercancel"]) canvas.addEventListener(kind, (event) => held.delete(event.pointerId));
    canvas.addEventListener("pointermove", (event) => {
      const before = held.get(event.pointerId);
      if (!before) return;
      const now = [event.clientX, event.clientY];
      const [across, down] = [now[0] - before[0], now[1] - before[1]];
      held.set(event.pointerId, now);
      if (held.size === 2) {
        const [other] = [...held].filter(([id]) => id !== event.pointerId).map(([, place]) => place);
        const apart = (place) => Math.max(10, Math.hypot(place[0] - other[0], place[1] - other[1]));
        nearer(apart(now) / apart(before), ...on((now[0] + other[0]) / 2, (now[1] + other[1]) / 2));
        move(across / canvas.clientWidth, -down / canvas.clientHeight);
      } else if (event.shiftKey || event.buttons === 2) {
        move(2 * across / canvas.clientWidth, -2 * down / canvas.clientHeight);
      } else {
        turn(across * 0.008, down * 0.008);
      }
    });
    canvas.addEventListener("contextmenu", (event) => event.preventDefault());
    canvas.addEventListener("wheel", (event) => {
      event.preventDefault();
      nearer(Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.05 : 0.0015)), ...on(event.clientX, event.clientY));
    }, { passive: false });
    canvas.addEventListener("dblclick", begin);
    const keys = {
      ArrowLeft: () => turn(-0.1, 0), ArrowRight: () => turn(0.1, 0), ArrowUp: () => turn(0, -0.1), ArrowDown: () => turn(0, 0.1),
      "+": () => nearer(1.2), "=": () => nearer(1.2), "-": () => nearer(1 / 1.2), Home: begin,
    };
    const moves = {
      ArrowLeft: () => move(0.1, 0), ArrowRight: () => move(-0.1, 0), ArrowUp: () => move(0, -0.1), ArrowDown: () => move(0, 0.1),
    };
    canvas.addEventListener("keydown", (event) => {
      const act = (event.shiftKey && moves[event.key]) || keys[event.key];
      if (!act || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      act();
    });

    canvas.tabIndex = 0;
    canvas.setAttribute("role", "img");
    canvas.setAttribute("aria-label", `${figure.dataset.label}. Arrow keys turn it, with shift they move it, plus and minus change its size, Home begins again.`);
    const list = document.createElement("fieldset");
    const legend = document.createElement("legend");
    legend.textContent = "Parts shown";
    list.append(legend);
    for (const [name, group] of scene.groups) {
      const label = document.createElement("label");
      const box = document.createElement("input");
      box.type = "checkbox";
      box.checked = true;
      box.addEventListener("change", () => { group.shown = box.checked; redraw(); });
      label.append(box, ` ${name}${group.runs.length > 1 ? ` (${group.runs.length})` : ""}`);
      list.append(label);
    }
    figure.querySelector("[data-still]").replaceWith(canvas);
    canvas.after(list);
    new ResizeObserver(redraw).observe(canvas);
    begin();
    figure.dataset.shown = "";
  }

  const showAll = () => {
    for (const figure of document.querySelectorAll("figure.model-in-space:not([data-shown])")) show(figure);
  };
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", showAll);
  else showAll();
})();
