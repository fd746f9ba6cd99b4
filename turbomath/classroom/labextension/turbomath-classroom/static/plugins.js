/* The two plugins: the lessons themselves, and a word of our own in place of the "connection lost" window. */
import { guardKeys } from "./keys.js";
import { Lesson } from "./lesson.js";
import { quietDialogs } from "./dialogs.js";

const SHOW_CODE = "turbomath:show-code";

export async function plugins(shared) {
  const [application, apputils, coreutils, notebook, widgets] = await Promise.all(
    ["application", "apputils", "coreutils", "notebook"].map((name) => shared(`@jupyterlab/${name}`)).concat(shared("@lumino/widgets")),
  );
  const shipped = JSON.parse(coreutils.PageConfig.getOption("turbomathLessons") || "[]");
  const lab = { actions: notebook.NotebookActions, Widget: widgets.Widget, shipped, SHOW_CODE };

  return [
    {
      id: "turbomath-classroom:connection",
      autoStart: true,
      provides: application.IConnectionLost,
      activate: () => async () => Lesson.all.forEach((lesson) => lesson.lookForServer()),
    },
    {
      id: "turbomath-classroom:lessons",
      autoStart: true,
      requires: [notebook.INotebookTracker],
      optional: [apputils.ICommandPalette, application.ILabShell],
      activate: (app, tracker, palette, shell) => {
        style();
        guardKeys();
        quietDialogs(apputils.Dialog);
        if (shell) app.restored.then(() => clearSides(shell));
        addCommand(app.commands, tracker, palette);
        app.shell.add(codeButton(app.commands, tracker, widgets.Widget), "menu", { rank: 1000 });
        tracker.widgetAdded.connect((_, panel) => new Lesson(panel, { ...lab, app }));
      },
    },
  ];
}

function style() {
  const link = document.createElement("link");
  link.rel = "stylesheet";
  link.href = new URL("./lesson.css", import.meta.url);
  document.head.append(link);
}

/* The side bars have nothing for a lesson. */
function clearSides(shell) {
  shell.collapseLeft();
  shell.collapseRight();
  for (const side of ["left", "right"]) {
    if (shell.isSideTabBarVisible(side)) shell.toggleSideTabBarVisibility(side);
  }
}

function addCommand(commands, tracker, palette) {
  const current = () => Lesson.of(tracker.currentWidget);
  commands.addCommand(SHOW_CODE, {
    label: () => (current()?.codeShown === false ? "Show code" : "Hide code"),
    isEnabled: () => Boolean(current()),
    execute: () => current().showCode(!current().codeShown),
  });
  palette?.addItem({ command: SHOW_CODE, category: "Lesson" });
}

/* The same command as a button at the right end of the menus, there while a notebook is in sight. */
function codeButton(commands, tracker, Widget) {
  const widget = new Widget();
  widget.id = "turbomath-code";
  const button = widget.node.appendChild(document.createElement("button"));
  button.type = "button";
  button.addEventListener("click", () => commands.execute(SHOW_CODE));
  const refresh = () => {
    button.textContent = commands.label(SHOW_CODE);
    button.hidden = !commands.isEnabled(SHOW_CODE);
  };
  commands.commandChanged.connect((_, change) => change.id === SHOW_CODE && refresh());
  tracker.currentChanged.connect(() => commands.notifyCommandChanged(SHOW_CODE));
  refresh();
  return widget;
}
