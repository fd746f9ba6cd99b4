/* Windows that would cover a lesson to say what its own bar says already. */
import { Lesson } from "./lesson.js";

export function quietDialogs(Dialog) {
  Dialog.tracker.widgetAdded.connect((_, dialog) => {
    if (dialog.node.getAttribute("aria-label")?.startsWith("Kernel Restarting")) {
      queueMicrotask(() => dialog.reject()); // made, but not opened yet: closed before it is drawn
    } else {
      setTimeout(() => closeIfUnreachable(dialog), 200); // its title is written after it opens
    }
  });
}

/* A failed save says something of its own only while the server answers. */
async function closeIfUnreachable(dialog) {
  const lessons = Array.from(Lesson.all);
  if (!lessons.length || !dialog.node.textContent.startsWith("File Save Error")) return;
  if (await lessons[0].serverAnswers()) return;
  lessons.forEach((lesson) => lesson.lookForServer());
  dialog.reject();
}
