/* Keys typed in a control, or anywhere in a lesson whose code is out of sight, are not notebook shortcuts:
   there x deletes a cell, b adds one, m turns code into words. Saving stays. */
export function guardKeys(lessonKeys) {
  document.body.addEventListener("keydown", (event) => {
    const plain = !(event.ctrlKey || event.metaKey || event.altKey || event.shiftKey);
    const typing = event.target.closest("input:not([type=range], [type=radio], [type=checkbox]), textarea, select, .cm-editor");
    if (!plain || typing || !lessonKeys[event.key] || !document.body.classList.contains("turbomath-reading")) return;
    if (event.key === "p" && event.target.closest(".tm-presentable")) return; // that panel is meant
    event.stopImmediatePropagation();
    lessonKeys[event.key]();
  }, true);
  document.body.addEventListener("keydown", (event) => {
    const saving = (event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "s";
    if (!saving && isGuarded(event.target)) event.stopPropagation();
  });
}

function isGuarded(target) {
  if (target.closest(".turbomath-lesson .jp-OutputArea-output")) return true;
  return Boolean(target.closest(".turbomath-quiet .jp-Notebook")) && !target.closest(".cm-editor");
}
