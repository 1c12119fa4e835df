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

function keepFocus(fill) {
  const focused = document.activeElement;
  const at = focused?.id || focused?.getAttribute?.("href") || focused?.name;
  const named = () => Array.from(document.querySelectorAll("main details")).map((one, index) => [one.id || index, one]);
  const open = new Set(named().filter(([, one]) => one.open).map(([name]) => name));
  fill();
  for (const [name, one] of named()) if (open.has(name)) one.open = true;
  if (!at || focused === document.body) return;
  const again = Array.from(document.querySelectorAll("main a, main button, main input, main select, main summary")).find(
    (one) => one.id === at || one.getAttribute("href") === at || one.name === at,
  );
  again?.focus({ preventScroll: true });
}

async function takeUp() {
  const answer = await fetch(location.href, { headers: { Accept: "text/html" } });
  if (!answer.ok && answer.status !== 404) return;
  show(await answer.text());
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
  button.addEventListener("click", takeUp);
  news.append(`${text} `, button);
}

const events = new EventSource("/events");
events.addEventListener("message", (event) => look(Number(event.data)));

function look(number) {
  if (number === shown() || document.body.dataset.stays) return;
  if (document.body.dataset.drawing) setTimeout(look, 300, number); // what is being dragged stays
  else if (isBusy()) say("The files changed while this form was being filled in.");
  else takeUp().catch(() => {});
}

events.addEventListener("error", () => {
  if (events.readyState === EventSource.CLOSED) news.textContent = "The desk has ended. Start it again to go on.";
});
