/* Windows that would cover a lesson to say what its own bar says already. */
export function quietDialogs(Dialog, lessonInSight) {
  Dialog.tracker.widgetAdded.connect((_, dialog) => {
    const lesson = lessonInSight();
    if (!lesson) return;
    if (dialog.node.getAttribute("aria-label")?.startsWith("Kernel Restarting")) {
      queueMicrotask(() => dialog.reject()); // made, but not opened yet: closed before it is drawn
    } else {
      setTimeout(() => closeIfUnreachable(dialog, lesson), 200); // its title is written after it opens
    }
  });
}

/* A failed save says something of its own only while the server answers. */
async function closeIfUnreachable(dialog, lesson) {
  if (!dialog.node.textContent.startsWith("File Save Error")) return;
  if (await lesson.serverAnswers()) return;
  lesson.lookForServer();
  dialog.reject();
}
