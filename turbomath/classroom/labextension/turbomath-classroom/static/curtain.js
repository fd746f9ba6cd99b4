/* Nothing is seen before it stands where it will stand: the page is a plain word until the first panel of the lesson is. */
const PATIENCE = 30000; // ms; then whatever there is is shown, as on a PC that is very slow
const SHUT = "turbomath-shut";
const STYLE = `.${SHUT} body > * { opacity: 0 !important; }
  .${SHUT} body::before { content: "One moment. The lesson is being opened."; position: fixed; left: 5vw; top: 5vh; font: 18px system-ui, "DejaVu Sans", sans-serif; }`;

export function curtain() {
  const style = document.head.appendChild(document.createElement("style"));
  const lift = () => document.documentElement.classList.remove(SHUT);
  style.textContent = STYLE;
  document.documentElement.classList.add(SHUT);
  setTimeout(lift, PATIENCE);
  const idle = window.requestIdleCallback ?? ((then) => setTimeout(then, 100));
  return () => setTimeout(() => idle(() => idle(lift)), 100); // once JupyterLab has laid out what was changed, and rests
}
