// Draws a jar anew while its marks are typed. What is drawn comes from the desk; nothing is written.
const WAIT = 250;
let waiting = 0;
let asked = 0;

async function draw(form) {
  const place = document.getElementById("jar-now");
  if (!place) return;
  const number = ++asked;
  const fields = new URLSearchParams(new FormData(form));
  fields.delete("seen");
  const soil = encodeURIComponent(fields.get("soil"));
  const answer = await fetch(`/earth/jar/${soil}?${fields}`);
  if (!answer.ok || number !== asked) return;
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").body;
  place.replaceChildren(...Array.from(fresh.childNodes, (one) => document.adoptNode(one)));
}

document.addEventListener("input", (event) => {
  const form = event.target.closest?.("form.live");
  if (!form) return;
  clearTimeout(waiting);
  waiting = setTimeout(() => draw(form).catch(() => {}), WAIT);
});
