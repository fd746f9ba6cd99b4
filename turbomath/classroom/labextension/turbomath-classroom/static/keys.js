/* Keys typed in a control, or anywhere in a lesson whose code is out of sight, are not notebook shortcuts:
   there x deletes a cell, b adds one, m turns code into words. Saving stays. */
export function guardKeys() {
  document.body.addEventListener("keydown", (event) => {
    const saving = (event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "s";
    if (!saving && isGuarded(event.target)) event.stopPropagation();
  });
}

function isGuarded(target) {
  if (target.closest(".jp-OutputArea-output")) return true;
  return Boolean(target.closest(".turbomath-quiet .jp-Notebook")) && !target.closest(".cm-editor");
}
