// Sends a photo as it is taken, shows it, and adds its number and its title to the form that it goes with.
async function take(place, input) {
  const alert = place.querySelector("[role=alert]");
  const say = (text) => {
    alert.textContent = text;
    alert.hidden = !text;
  };
  const file = input.files[0];
  say("");
  place.setAttribute("aria-busy", "true");
  try {
    const answer = await fetch(place.dataset.address + encodeURIComponent(file.name), { method: "PUT", body: file });
    const text = await answer.text();
    const number = answer.ok && text.match(/\/(\d+)$/)?.[1];
    if (number) add(place, number);
    else say(text);
  } catch {
    say("The photo could not be sent. It may be too large, or the desk has ended.");
  } finally {
    input.value = "";
    place.removeAttribute("aria-busy");
  }
}

const made = (name, values) => Object.assign(document.createElement(name), values);

function add(place, number) {
  const id = `title:${number}`;
  const shot = made("div", { className: "shot" });
  shot.append(
    made("img", { src: place.dataset.held + number, alt: "The photo that was taken", className: "photo" }),
    made("input", { type: "hidden", name: place.dataset.name, value: number }),
    made("label", { textContent: "Title of the photo", htmlFor: id }),
    made("input", { type: "text", name: id, id, maxLength: 400, autocomplete: "off" }),
  );
  const without = made("button", { type: "button", textContent: "Leave this photo out" });
  without.addEventListener("click", () => shot.remove());
  shot.append(without);
  place.append(shot);
  shot.querySelector("[type=text]").value = place.dataset.title; // as if typed: the page is not taken away
}

document.addEventListener("change", (event) => {
  const place = event.target.closest?.(".shots");
  if (place && event.target.type === "file" && event.target.files.length) take(place, event.target);
});
