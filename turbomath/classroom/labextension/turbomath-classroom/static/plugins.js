/* The plugins: the lessons themselves, and on the lessons' own server a word of ours in place of the "connection lost"
   window. On any other Jupyter server they are a guest: nothing but an open lesson looks or behaves otherwise. */
import { curtain } from "./curtain.js";
import { guardKeys } from "./keys.js";
import { Lesson } from "./lesson.js";
import { quietDialogs } from "./dialogs.js";
import { tools } from "./tools.js";

const SHOW_CODE = "turbomath:show-code", PRESENT = "turbomath:present", AGAIN = "turbomath:again", HOME = "turbomath:home";
const ALONE = /\/doc\/(workspaces\/turbomath\/)?tree\/.*\.ipynb$/.test(location.pathname); // a page for one notebook

export async function plugins(shared) {
  const lift = ALONE ? curtain() : () => {};
  if (ALONE) keepTheWayBack();
  const [application, apputils, coreutils, launcher, notebook, widgets] = await Promise.all(
    ["application", "apputils", "coreutils", "launcher", "notebook"].map((name) => shared(`@jupyterlab/${name}`)).concat(shared("@lumino/widgets")),
  );
  const told = (name, otherwise) => JSON.parse(coreutils.PageConfig.getOption(name) || otherwise);
  const lab = {
    actions: notebook.NotebookActions, Widget: widgets.Widget, SHOW_CODE, shipped: told("turbomathLessons", "[]"),
    own: told("turbomathOwn", "false"), notebook: told("turbomathNotebook", "{}"), order: told("turbomathOrder", "[]"), home: coreutils.PageConfig.getOption("turbomathHome"), present: told("turbomathPresent", "false"),
    apart: new RegExp(coreutils.PageConfig.getOption("turbomathUnbroken"), "g"), lift, dialog: apputils.Dialog, base: coreutils.PageConfig.getBaseUrl().replace(/\/$/, ""),
  };

  const connection = {
    id: "turbomath-classroom:connection",
    autoStart: true,
    provides: application.IConnectionLost,
    activate: () => async () => Lesson.all.forEach((lesson) => lesson.lookForServer()),
  };
  const lessons = {
    id: "turbomath-classroom:lessons",
    autoStart: true,
    requires: [notebook.INotebookTracker],
    optional: [apputils.ICommandPalette, application.ILabShell, launcher.ILauncher],
    activate: (app, tracker, palette, shell, cards) => {
      style();
      document.body.classList.toggle("turbomath-alone", ALONE);
      const run = (command) => app.commands.isEnabled(command) && void app.commands.execute(command);
      guardKeys({ p: () => run(PRESENT), F2: () => run(SHOW_CODE) });
      openNotes(lab);
      quietDialogs(apputils.Dialog, () => Lesson.of(tracker.currentWidget));
      const cleared = ALONE && (lab.own || location.pathname.includes("/workspaces/turbomath/")); // kept with a workspace
      const clear = () => cleared && shell && app.restored.then(() => clearSides(shell));
      if (lab.own) clear();
      addCommands(app.commands, tracker, palette);
      if (!lab.own) addWayIn(app.commands, lab, palette, cards);
      app.shell.add(tools(app.commands, tracker, lab, { code: SHOW_CODE, present: PRESENT, again: AGAIN }), "menu", { rank: 1000 });
      tracker.widgetAdded.connect(async (_, panel) => {
        if (!(await Lesson.isWanted(panel, lab))) return lift();
        if (!lab.own) clear();
        new Lesson(panel, { ...lab, app });
      });
    },
  };
  return lab.own ? [connection, lessons] : [lessons];
}

/* JupyterLab enters a page that is open already into the history again; then "back" would lead nowhere. */
function keepTheWayBack() {
  const push = history.pushState.bind(history);
  history.pushState = (state, title, url) => {
    const same = new URL(url ?? "", location.href).href === location.href;
    if (same) history.replaceState(state, title, url);
    else push(state, title, url);
  };
}

function style() {
  const link = document.createElement("link");
  link.rel = "stylesheet";
  link.href = new URL("./lesson.css", import.meta.url);
  document.head.append(link);
}

/* The side bars and the line below have nothing for a lesson. */
function clearSides(shell) {
  shell.collapseLeft();
  shell.collapseRight();
  for (const line of shell.widgets("bottom")) line.hide();
  if (shell.isTopInSimpleModeVisible?.()) shell.toggleTopInSimpleModeVisibility(); // a file's name is no title of a lesson
  for (const side of ["left", "right"]) {
    if (shell.isSideTabBarVisible(side)) shell.toggleSideTabBarVisibility(side);
  }
}

/* The notes are no file of the work folder: they have a page of their own. */
function openNotes({ base, home }) {
  document.body.addEventListener("click", (event) => {
    const link = event.target.closest?.('.turbomath-lesson .jp-RenderedMarkdown a[href*="teaching_notes/"]');
    if (!link) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    const name = decodeURIComponent(link.href).match(/teaching_notes\/([^/?#]+)\.md/)[1];
    window.open(`${base}${home}/notes/${name}`, "_blank", "noopener");
  }, true);
}

/* On a server with other things to do, the page with all lessons is one card among the others. */
function addWayIn(commands, { base, home }, palette, cards) {
  commands.addCommand(HOME, { label: "Turbocharging lessons", iconClass: "turbomath-card", execute: () => void window.open(`${base}${home}`, "_blank", "noopener") });
  palette?.addItem({ command: HOME, category: "Lesson" });
  cards?.add({ command: HOME, category: "Other" });
}

function addCommands(commands, tracker, palette) {
  const current = () => Lesson.of(tracker.currentWidget);
  commands.addCommand(SHOW_CODE, {
    label: () => (current()?.codeShown === false ? "Show code" : "Hide code"),
    isEnabled: () => Boolean(current()),
    execute: () => current().showCode(!current().codeShown),
  });
  commands.addCommand(PRESENT, {
    label: "On the wall",
    isEnabled: () => current()?.codeShown === false,
    execute: () => current().present(),
  });
  commands.addCommand(AGAIN, {
    label: "Begin again",
    isEnabled: () => current()?.codeShown === false,
    execute: ({ sure }) => current().again(sure),
  });
  for (const command of [SHOW_CODE, PRESENT, AGAIN]) palette?.addItem({ command, category: "Lesson" });
}
