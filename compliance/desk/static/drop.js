// Sends a file that was chosen or dropped as it is, and goes on where the desk says. Nothing else leaves the page.
async function send(place, file) {
  const said = place.querySelector("[role=alert]");
  const say = (text) => {
    said.textContent = text;
    said.hidden = !text;
  };
  say("");
  place.setAttribute("aria-busy", "true");
  try {
    const answer = await fetch(place.dataset.address + encodeURIComponent(file.name), { method: "PUT", body: file });
    const text = await answer.text();
    if (answer.ok && text.startsWith("/")) location.assign(text);
    else say(text);
  } catch {
    say("The file could not be sent. It may be too large, or the desk has ended.");
  } finally {
    place.removeAttribute("aria-busy");
  }
}

document.addEventListener("change", (event) => {
  const place = event.target.closest?.(".drop");
  if (place && event.target.files?.length) send(place, event.target.files[0]);
});

document.addEventListener("dragover", (event) => {
  if (document.querySelector(".drop")) event.preventDefault();
});

document.addEventListener("drop", (event) => {
  const place = event.target.closest?.(".drop") ?? document.querySelector(".drop");
  const file = event.dataTransfer?.files[0];
  if (!place) return;
  event.preventDefault();
  if (file) send(place, file);
});
