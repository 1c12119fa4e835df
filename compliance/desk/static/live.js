// Takes up a new answer when the files change. A page with a form half filled in is left alone and says so instead.

const news = document.getElementById("news");

function shown() {
  return Number(document.getElementById("content").dataset.number);
}

function isBusy() {
  if (document.querySelector("[data-typed]")) return true;
  return Array.from(document.querySelectorAll("main input, main select, main textarea")).some((field) =>
    field.type === "checkbox" || field.type === "radio"
      ? field.checked !== field.defaultChecked
      : field.tagName !== "SELECT"
        ? field.type !== "hidden" && field.value !== field.defaultValue
        : field.multiple
          ? Array.from(field.options).some((one) => one.selected !== one.defaultSelected)
          : field.selectedIndex !== Math.max(0, Array.from(field.options).findIndex((one) => one.defaultSelected)),
  );
}

// Whether something is being dragged, or a list, a calendar or a dialog of files may be open: what is chosen in it would
// be lost with its field.
const CHOICES = "main select, main [type=file], main [type=date]";
const isHeld = () => Boolean(document.body.dataset.drawing || document.activeElement?.matches(CHOICES));

const FOCUSABLE = "a, button, input, select, textarea, summary, pre, [tabindex]";
const parts = () => Array.from(document.querySelectorAll("body > header, #content"));

// What stands for a thing on a page that is drawn anew: its own name, else its words in its fold and form.
function nameOf(one) {
  const own = one.id || one.getAttribute("href") || one.getAttribute("name");
  const fold = one.closest("details")?.id ?? "";
  const form = one.closest("form")?.getAttribute("action") ?? "";
  return `${one.tagName} ${fold} ${form} ${own || one.textContent.trim()}`;
}

// The thing that has the focus, by its name and its place among those of the same name.
function focused() {
  const here = document.activeElement;
  if (!here || here === document.body || !parts().some((part) => part.contains(here))) return null;
  const name = nameOf(here);
  return { name, at: alike(name).indexOf(here), whole: here.id === "content" };
}

const alike = (name) =>
  parts()
    .flatMap((part) => Array.from(part.querySelectorAll(FOCUSABLE)))
    .filter((one) => nameOf(one) === name);

function keepFocus(fill) {
  const was = focused();
  const named = () => Array.from(document.querySelectorAll("main details")).map((one, index) => [one.id || index, one]);
  const open = new Set(named().filter(([, one]) => one.open).map(([name]) => name));
  fill();
  for (const [name, one] of named()) if (open.has(name)) one.open = true;
  if (!was) return;
  const found = alike(was.name);
  const again = was.whole ? document.getElementById("content") : (found[was.at] ?? found[0]);
  (again ?? document.getElementById("content")).focus({ preventScroll: true });
}

// Fetches the page anew. With the `number` of a check it waits for a field that was begun while it was on its way.
async function takeUp(number = null) {
  const answer = await fetch(location.href, { headers: { Accept: "text/html" } });
  if (!answer.ok && answer.status !== 404) return;
  const text = await answer.text();
  if (number !== null && (isBusy() || isHeld())) look(number);
  else show(text);
}

// Puts the content of a page in place of what is shown, with the steps that can be taken back. A new page begins at
// its top; the same one keeps what is open and where the reader is.
export function show(text, isSame = true) {
  const fresh = new DOMParser().parseFromString(text, "text/html");
  if (!fresh.getElementById("content")) return;
  const put = () => {
    for (const part of ["#content", "body > header"])
      document.querySelector(part).replaceWith(document.adoptNode(fresh.querySelector(part)));
  };
  if (isSame) keepFocus(put);
  else put();
  if (!isSame) {
    document.body.dataset.stays = "yes"; // why nothing was written is not taken away before it was read
    document.getElementById("content").focus();
  }
  document.dispatchEvent(new CustomEvent("fresh"));
  say("");
}

function say(text) {
  news.replaceChildren();
  if (!text) return;
  const button = document.createElement("button");
  button.textContent = "Show the new answer";
  button.addEventListener("click", () => takeUp());
  news.append(`${text} `, button);
}

const events = new EventSource("/events");
events.addEventListener("message", (event) => look(Number(event.data)));

function look(number) {
  if (number === shown() || document.body.dataset.stays) return;
  if (isHeld()) setTimeout(look, 300, number);
  else if (isBusy()) say("The files changed while this form was being filled in.");
  else takeUp(number).catch(() => {});
}

events.addEventListener("error", () => {
  if (events.readyState === EventSource.CLOSED) news.textContent = "The desk has ended. Start it again to go on.";
});
