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
  const open = Array.from(document.querySelectorAll("main details")).map((one) => one.open);
  fill();
  document.querySelectorAll("main details").forEach((one, index) => {
    if (open[index]) one.open = true;
  });
  if (!at || focused === document.body) return;
  const again = Array.from(document.querySelectorAll("main a, main button, main input, main select, main summary")).find(
    (one) => one.id === at || one.getAttribute("href") === at || one.name === at,
  );
  again?.focus({ preventScroll: true });
}

async function takeUp() {
  const answer = await fetch(location.href, { headers: { Accept: "text/html" } });
  if (!answer.ok && answer.status !== 404) return;
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("content");
  if (!fresh) return;
  keepFocus(() => document.getElementById("content").replaceWith(document.adoptNode(fresh)));
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
events.addEventListener("message", (event) => {
  if (Number(event.data) === shown()) return;
  if (isBusy()) say("The files changed while this form was being filled in.");
  else takeUp().catch(() => {});
});
events.addEventListener("error", () => {
  if (events.readyState === EventSource.CLOSED) news.textContent = "The desk has ended. Start it again to go on.";
});
