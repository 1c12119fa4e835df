// Lets the pointer and the arrow keys fill in the forms of the plan, and sends them. The plan itself stays on the server.

import { show } from "./live.js";

const NS = "http://www.w3.org/2000/svg";
const NEAR = 9; // points of the drawing within which an end of a wall takes hold
const SLACK = 4; // a press that moves less than this is a choice
const WAIT = 350; // ms of quiet after the last arrow key
const MIDDLE = "Press where the arc passes through.";
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

let drag = null;
const fingers = new Set(); // those on the screen: one draws, several zoom and scroll
let arc = null; // the two ends of an arc that still lacks its middle
let nudge = null;
let sending = false;
let later = []; // arrow keys pressed while a change is on its way
let tool = "move";
let step = null;

const over = () => document.getElementById("over");
const units = () => document.getElementById("tools").dataset.units;
const data = (name) => Number(over().dataset[name]);
const toSheet = ([x, y]) => [data("east") + x * data("perMetre"), data("north") - y * data("perMetre")];
const toPlan = ([x, y]) => [(x - data("east")) / data("perMetre"), (data("north") - y) / data("perMetre")];
const size = () => Number(step ?? document.getElementById("step").value);

function say(text) {
  document.getElementById("pointer-says").textContent = text;
}

function place(event) {
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(over().getScreenCTM().inverse());
  return [point.x, point.y];
}

// A length as the forms take it: feet and inches or meters, exact where it stands on no step.
function written(metres) {
  if (units() === "si") return `${Number(metres.toFixed(4))} m`;
  const inches = Number((metres / 0.0254).toFixed(4));
  if (inches < 0 || !Number.isInteger(inches)) return `${inches} in`;
  return inches % 12 ? `${Math.floor(inches / 12)} ft ${inches % 12} in` : `${inches / 12} ft`;
}

const stepped = (metres) => Math.round(metres / size()) * size();

function ends() {
  return Array.from(over().querySelectorAll(".corner")).map((one) => ({
    one,
    at: JSON.parse(one.dataset.point),
    text: one.dataset.at.split(", "),
  }));
}

// The place as numbers and as text: an end that is near, else the line of an end or a whole step along each axis.
function snapped(point, without = null) {
  const known = ends().filter((end) => end.one !== without);
  const reach = NEAR / data("perMetre");
  const near = known.find((end) => Math.hypot(end.at[0] - point[0], end.at[1] - point[1]) <= reach);
  if (near) return { at: near.at, text: near.text };
  const axes = [0, 1].map((axis) => {
    const line = ends().find((end) => Math.abs(end.at[axis] - point[axis]) <= reach / 2);
    if (line) return [line.at[axis], line.text[axis]];
    const value = stepped(point[axis]);
    return [value, written(value)];
  });
  return { at: axes.map((axis) => axis[0]), text: axes.map((axis) => axis[1]) };
}

function draft(points) {
  document.body.dataset.drawing = "yes";
  let shape = over().querySelector(".draft");
  if (!shape) {
    shape = document.createElementNS(NS, "polyline");
    shape.setAttribute("class", "draft");
    over().append(shape);
  }
  shape.setAttribute("points", points.map((point) => toSheet(point).join(",")).join(" "));
}

const between = (from, to) => written(Math.hypot(to[0] - from[0], to[1] - from[1]));

// The station of the place of a line that is nearest to a point.
function station(line, point) {
  if (line.radius) {
    const turn = Math.sign(line.sweep);
    let angle = (Math.atan2(point[1] - line.centre[1], point[0] - line.centre[0]) - line.first) * turn;
    const all = Math.abs(line.sweep);
    const middle = all / 2;
    angle -= 2 * Math.PI * Math.round((angle - middle) / (2 * Math.PI));
    return angle * line.radius;
  }
  const [dx, dy] = [line.to[0] - line.from[0], line.to[1] - line.from[1]];
  return ((point[0] - line.from[0]) * dx + (point[1] - line.from[1]) * dy) / Math.hypot(dx, dy);
}

function placeAt(line, s) {
  if (line.radius) {
    const angle = line.first + (Math.sign(line.sweep) * s) / line.radius;
    return [line.centre[0] + line.radius * Math.cos(angle), line.centre[1] + line.radius * Math.sin(angle)];
  }
  const [dx, dy] = [line.to[0] - line.from[0], line.to[1] - line.from[1]];
  const share = s / Math.hypot(dx, dy);
  return [line.from[0] + share * dx, line.from[1] + share * dy];
}

function slide(shape, by) {
  document.body.dataset.drawing = "yes";
  const line = JSON.parse(shape.dataset.line);
  const path = shape.querySelector("path");
  if (line.radius) {
    const [x, y] = toSheet(line.centre);
    const degrees = (-(by / line.radius) * Math.sign(line.sweep) * 180) / Math.PI;
    path.setAttribute("transform", `rotate(${degrees} ${x} ${y})`);
    return;
  }
  const [dx, dy] = [line.to[0] - line.from[0], line.to[1] - line.from[1]];
  const scale = (by * data("perMetre")) / Math.hypot(dx, dy);
  path.setAttribute("transform", `translate(${dx * scale} ${-dy * scale})`);
}

function putCircle(corner, at) {
  const [x, y] = toSheet(at);
  for (const circle of corner.querySelectorAll("circle")) {
    circle.setAttribute("cx", x);
    circle.setAttribute("cy", y);
  }
}

function lean(corner, at) {
  putCircle(corner, at);
  const others = JSON.parse(corner.dataset.others);
  draft(others.flatMap((other) => [at, other]));
}

// The start of an opening after a way along its wall, inside the wall.
function newStart(shape, by, round) {
  const start = Number(shape.dataset.start) + by;
  const room = Number(shape.dataset.room);
  return Math.min(Math.max(round ? stepped(start) : start, 0), room);
}

async function send(form) {
  if (sending) return;
  sending = true;
  try {
    const answer = await fetch(form.action, { method: "POST", body: new URLSearchParams(new FormData(form)) });
    if (answer.ok) history.replaceState(null, "", answer.url);
    show(await answer.text(), answer.ok);
  } finally {
    sending = false;
    delete document.body.dataset.drawing;
  }
}

function fill(form, values) {
  for (const [name, value] of Object.entries(values)) form.querySelector(`[name="${name}"]`).value = value;
  return form;
}

const formIn = (id) => document.querySelector(`#${id} form`);

async function moveOpening(shape, start) {
  const path = shape.dataset.path;
  const back = location.pathname + location.search;
  await send(fill(formIn("put"), { path, value: written(start), back }));
  focusOn((one) => one.dataset.path === path);
}

async function moveCorner(corner, to) {
  const form = fill(formIn("corner-form"), { at: corner.dataset.at, to: to.text.join(", "), only: "" });
  fill(form, { back: location.pathname + location.search.replace(/[?&]corner=[^&]*/, "") });
  await send(form);
  focusOn((one) => one.dataset.at && nearly(JSON.parse(one.dataset.point), to.at));
}

const nearly = (one, other) => Math.hypot(one[0] - other[0], one[1] - other[1]) < 0.004;

function focusOn(matches) {
  Array.from(over()?.querySelectorAll("a") ?? [])
    .find(matches)
    ?.focus({ preventScroll: true });
  const shape = document.activeElement?.closest?.("#over .opening, #over .corner");
  for (const way of later.splice(0)) if (shape) push(shape, way);
}

async function drawWall(from, to, through = null) {
  const values = { from: from.text.join(", "), to: to.text.join(", "), length: "", direction: "" };
  values.through = through ? through.text.join(", ") : "";
  await send(fill(formIn("wall-form"), values));
}

const along = (wall, line, point) => Math.min(Math.max(stepped(station(line, point)), 0), Number(wall.dataset.length));

// Where an opening is and how wide; the rest is typed in its form.
function fillOpening(wall, [start, end]) {
  const key = `walls-${wall.dataset.wall}-openings`;
  const details = document.getElementById(`add-${key}`);
  leave();
  if (!details) {
    say("Choose this wall first, then drag along it.");
    return;
  }
  const values = { start, width: end - start };
  for (const [name, value] of Object.entries(values)) document.getElementById(`new-${key}-${name}`).value = written(value);
  details.open = true;
  document.getElementById(`new-${key}-kind`).focus();
}

function begin(event) {
  if (event.button !== 0 || sending || !over()) return;
  const point = toPlan(place(event));
  if (tool === "arc" && arc) {
    drag = { isMiddle: true, at: place(event) };
  } else if (tool === "opening") {
    const wall = event.target.closest(".wall");
    if (!wall) return;
    const line = JSON.parse(wall.dataset.line);
    drag = { wall, line, at: place(event), first: along(wall, line, point) };
  } else if (tool !== "move") {
    drag = { from: snapped(point), at: place(event) };
  } else {
    const shape = event.target.closest(".opening, .corner");
    if (!shape) return;
    drag = { shape, at: place(event), line: shape.dataset.line && JSON.parse(shape.dataset.line) };
    if (drag.line) drag.first = station(drag.line, point);
  }
  drag.pointer = event.pointerId;
  event.preventDefault();
  over().setPointerCapture(event.pointerId);
}

function pressedDown(event) {
  if (event.pointerType === "touch") {
    if (event.isPrimary) fingers.clear();
    fingers.add(event.pointerId);
    if (fingers.size > 1) return putBack();
  }
  if (event.target.closest?.("#over")) begin(event);
}

function follow(event) {
  if (drag ? drag.pointer !== event.pointerId : fingers.size) return;
  if (tool === "arc" && arc && over()) draft([arc[0].at, toPlan(place(event)), arc[1].at]);
  if (!drag || drag.isMiddle) return;
  const now = place(event);
  drag.moved ||= Math.hypot(now[0] - drag.at[0], now[1] - drag.at[1]) > SLACK;
  if (!drag.moved) return;
  const point = toPlan(now);
  if (drag.wall) {
    drag.stations = [drag.first, along(drag.wall, drag.line, point)].sort((one, other) => one - other);
    const [start, end] = drag.stations;
    draft(Array.from({ length: 13 }, (_, index) => placeAt(drag.line, start + ((end - start) * index) / 12)));
    say(`${written(start)} from the start of ${drag.wall.dataset.wall}, ${written(end - start)} wide`);
  } else if (drag.from) {
    drag.to = snapped(point);
    draft([drag.from.at, drag.to.at]);
    say(`${drag.to.text.join(", ")}: ${between(drag.from.at, drag.to.at)} long`);
  } else if (drag.line) {
    drag.start = newStart(drag.shape, station(drag.line, point) - drag.first, true);
    slide(drag.shape, drag.start - Number(drag.shape.dataset.start));
    say(`${written(drag.start)} from the start of its wall`);
  } else {
    drag.to = snapped(point, drag.shape);
    lean(drag.shape, drag.to.at);
    say(drag.to.text.join(", "));
  }
}

// Keeps the page from scrolling under a finger that moves something: not every browser heeds touch-action inside an SVG.
function holdStill(event) {
  if (drag && fingers.size === 1 && event.cancelable) event.preventDefault();
}

function finish(event) {
  fingers.delete(event.pointerId);
  if (drag?.pointer !== event.pointerId) return;
  const done = drag;
  drag = null;
  if (done.isMiddle) {
    const [from, to] = arc;
    arc = null;
    drawWall(from, to, snapped(toPlan(place(event))));
    return;
  }
  if (!done.moved) {
    const link = done.shape ?? done.wall;
    if (link) location.assign(link.getAttribute("href"));
    return;
  }
  event.preventDefault();
  if (done.wall) fillOpening(done.wall, done.stations);
  else if (done.from && tool === "arc") {
    arc = [done.from, done.to];
    say(MIDDLE);
  } else if (done.from) drawWall(done.from, done.to);
  else if (done.line) moveOpening(done.shape, done.start);
  else moveCorner(done.shape, done.to);
}

function leave() {
  clearTimeout(nudge?.timer);
  arc = nudge = null;
  later = [];
  putBack();
}

// Everything is drawn as it was before the last press; the ends of an arc stay.
function putBack() {
  drag = null;
  delete document.body.dataset.drawing;
  over()?.querySelector(".draft")?.remove();
  over()?.querySelectorAll("[transform]").forEach((one) => one.removeAttribute("transform"));
  over()?.querySelectorAll(".corner").forEach((one) => putCircle(one, JSON.parse(one.dataset.point)));
  if (arc) draft(arc.map((end) => end.at));
  say(arc ? MIDDLE : "");
}

// The chosen thing moves by one step a press; what was pressed in one go is sent as one change.
function pressed(event) {
  if (event.key === "Escape") leave();
  const way = ARROWS[event.key];
  const shape = document.activeElement?.closest?.("#over .opening, #over .corner");
  if (!way || !shape || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  if (sending) later.push(way);
  else push(shape, way);
}

function push(shape, way) {
  if (nudge?.shape !== shape) nudge = { shape, x: 0, y: 0 };
  nudge.x += way[0] * size();
  nudge.y += way[1] * size();
  clearTimeout(nudge.timer);
  const own = nudge;
  if (shape.dataset.line) {
    const start = newStart(shape, nudge.x + nudge.y, false);
    slide(shape, start - Number(shape.dataset.start));
    say(`${written(start)} from the start of its wall`);
    own.timer = setTimeout(() => rest(() => moveOpening(shape, start)), WAIT);
  } else {
    const [x, y] = JSON.parse(shape.dataset.point);
    const texts = shape.dataset.at.split(", ");
    const at = [x + own.x, y + own.y];
    const to = { at, text: at.map((one, axis) => ((axis ? own.y : own.x) ? written(one) : texts[axis])) };
    lean(shape, at);
    say(to.text.join(", "));
    own.timer = setTimeout(() => rest(() => moveCorner(shape, to)), WAIT);
  }
}

function rest(change) {
  nudge = null;
  change();
}

function ready() {
  const tools = document.getElementById("tools");
  if (!tools) return;
  tools.hidden = false;
  tools.querySelectorAll("[name=tool]").forEach((one) => (one.checked = one.value === tool));
  if (step) document.getElementById("step").value = step;
  over()?.classList.toggle("drawing", tool !== "move");
  over()?.addEventListener("touchmove", holdStill, { passive: false });
}

document.addEventListener("pointerdown", pressedDown);
document.addEventListener("pointermove", follow);
document.addEventListener("pointerup", finish);
document.addEventListener("pointercancel", (event) => {
  fingers.delete(event.pointerId);
  if (drag?.pointer === event.pointerId) putBack();
});
document.addEventListener("contextmenu", (event) => drag && event.target.closest?.("#over") && event.preventDefault());
document.addEventListener("keydown", pressed);
document.addEventListener("click", (event) => tool !== "move" && event.target.closest?.("#over") && event.preventDefault());
document.addEventListener("dragstart", (event) => event.target.closest?.("#over") && event.preventDefault());
document.addEventListener("change", (event) => {
  if (event.target.name === "tool") {
    tool = event.target.value;
    leave();
    ready();
  }
  if (event.target.id === "step") step = event.target.value;
});
document.addEventListener("fresh", ready);
ready();
