/* Windows that would cover a lesson to say what its own bar says already. */
import { Lesson } from "./lesson.js";

export function quietDialogs(Dialog) {
  Dialog.tracker.widgetAdded.connect((_, dialog) => {
    const title = dialog.node.querySelector(".jp-Dialog-header")?.textContent ?? "";
    const unreachable = Array.from(Lesson.all).some((lesson) => lesson.serverGone);
    if (title.startsWith("Kernel Restarting") || (unreachable && title.startsWith("File Save Error"))) {
      queueMicrotask(() => dialog.reject()); // made, but not opened yet: closed before it is drawn
      setTimeout(() => dialog.isDisposed || dialog.reject());
    }
  });
}
