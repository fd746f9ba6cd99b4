/* One open notebook: run it if its code is that of a shipped lesson, keep it live, and say so when it is not. */
import { Bar } from "./bar.js";
import { canCheck, digest } from "./digest.js";
import { unbroken } from "./unbroken.js";

const WORDS = {
  starting: "The lesson is starting.",
  stranger:
    "This notebook is not one of the shipped lessons, so it was not run. Read it first; to run it choose Run > Run All Cells.",
  unchecked:
    "This page came over plain http from another machine, where a browser cannot check a lesson, so it was not run. Open it by https, or on that machine.",
  restarting: "Python stopped, so the numbers do not move now. It is being started again.",
  altered: "Python stopped and was started again. This is not the code of a shipped lesson, so it was not run: choose Run > Run All Cells.",
  restarted: "Python was started again. Choose Run > Run All Cells to make the lesson move.",
  dead: "Python has stopped, so the numbers do not move. Choose Kernel > Restart Kernel and Run All Cells.",
  none: "Python could not be started, so there are no numbers. Open the lesson again; if that does not help, end the lessons where you started them and start them again.",
  kept: "What you did could not be forgotten. Try again from the page with all lessons.",
  unreachable:
    "The lesson's server does not answer, so the numbers do not move. If it was closed, start it again: turbomath lessons",
};

const FROM_THE_KIT_ALONE = "import sys; sys.path[:] = [one for one in sys.path if one]"; // never from files beside the lesson

const pause = (ms) => new Promise((done) => setTimeout(done, ms));

const nameOf = (panel) => panel.context.path.replace(/^.*\//, "").replace(/\.ipynb$/, "");

async function isShipped(panel, lab) {
  if (!canCheck) return false;
  const sources = Array.from(panel.content.model.cells)
    .filter((cell) => cell.type === "code")
    .map((cell) => cell.sharedModel.getSource());
  return lab.shipped.includes(await digest(sources));
}

export class Lesson {
  static all = new Set();

  static of(panel) {
    return Array.from(Lesson.all).find((lesson) => lesson.panel === panel);
  }

  /* On the lessons' own server every notebook is looked after; on another only a lesson, by its code or its name. */
  static async isWanted(panel, lab) {
    if (lab.own) return true;
    await panel.context.ready;
    return lab.order.includes(nameOf(panel)) || isShipped(panel, lab);
  }

  constructor(panel, lab) {
    Object.assign(this, { panel, lab, codeShown: true, fallen: false, said: [""] });
    this.bar = new Bar(panel, lab.Widget);
    Lesson.all.add(this);
    panel.node.classList.add("turbomath-lesson");
    if (!lab.own) panel.content.notebookConfig = { ...panel.content.notebookConfig, ...lab.notebook };
    panel.disposed.connect(() => Lesson.all.delete(this));
    this.open();
  }

  get name() {
    return nameOf(this.panel);
  }

  get kernel() {
    return this.panel.sessionContext.session?.kernel;
  }

  async open() {
    await this.panel.context.ready;
    const shipped = await this.isShipped();
    this.showCode(!shipped);
    if (shipped) this.say("starting");
    else this.advise(canCheck ? "stranger" : "unchecked");
    (shipped ? this.drawn() : Promise.resolve()).then(this.lab.lift);
    await this.panel.sessionContext.ready;
    this.watch();
    if (shipped) await this.run();
    if (shipped && this.lab.present) this.present();
    this.lab.present = false; // once: afterwards the reader decides
  }

  /* Words and first panel stand where they will stay, so that what comes after them moves down no more; or a cell or the
     bar has something to say first. */
  async drawn() {
    const { panel, lab } = this, stands = () => panel.node.querySelector(".tm, .jp-RenderedText") || this.said[1] !== "calm";
    while (!panel.isDisposed && !stands()) await pause(50);
    for (const words of panel.node.querySelectorAll(".jp-RenderedMarkdown")) unbroken(words, lab.apart);
  }

  /* Nothing but the lesson is wanted now: no code, and no menu that a sentence sends the reader to. */
  get reading() {
    return !this.codeShown && !this.said[2];
  }

  /* Put the panel in sight on the wall, or the first one that comes. */
  async present() {
    const { node } = this.panel, shown = () => [...node.querySelectorAll(".tm-presentable")];
    for (let turn = 0; turn < 100 && !shown().length; turn++) await pause(100);
    const below = shown().filter((one) => one.getBoundingClientRect().bottom > node.getBoundingClientRect().top + 150);
    (below[0] ?? shown().at(-1))?.dispatchEvent(new CustomEvent("turbomath-present"));
  }

  /* Forget what was predicted, set and answered in this lesson, once the reader is *sure*, and run it afresh. */
  async again(sure) {
    const { dialog: Dialog, base, home } = this.lab;
    const buttons = [Dialog.cancelButton({ label: "keep it" }), Dialog.warnButton({ label: "begin again" })];
    const asked = { title: "Begin this lesson again?", body: "What you predicted, set and answered in it is forgotten.", buttons, defaultButton: 0 };
    if (!sure && !(await new Dialog(asked).launch()).button.accept) return;
    const key = document.cookie.match(/(?:^|; )_xsrf=([^;]*)/)?.[1] ?? "";
    const answer = await fetch(`${base}${home}/again/${encodeURIComponent(this.name)}`, { method: "POST", headers: { "X-XSRFToken": key } }).catch(() => null);
    if (!answer) return this.lookForServer();
    if (!answer.ok) return this.say("kept", "note");
    await this.run();
  }

  isShipped() {
    return isShipped(this.panel, this.lab);
  }

  /* Run every cell if they are the shipped ones at this moment; say whether they were. */
  async run() {
    const { content, sessionContext } = this.panel;
    const before = content.activeCellIndex, place = content.outerNode.scrollTop;
    if (!this.kernel) return this.advise("none", "alarm");
    await this.kernel.info;
    if (!(await this.isShipped())) return false;
    if (!this.lab.own) await this.kernel.requestExecute({ code: FROM_THE_KIT_ALONE, silent: true, store_history: false }).done;
    await this.lab.actions.runAll(content, sessionContext);
    content.activeCellIndex = before;
    content.outerNode.scrollTop = place; // running the last cell leads there; the reader was elsewhere
    if (!this.fallen) this.say("");
    return true;
  }

  watch() {
    const { sessionContext } = this.panel;
    sessionContext.statusChanged.connect((_, status) => this.onStatus(status));
    sessionContext.kernelChanged.connect((_, change) => change.newValue || this.advise("dead", "alarm"));
    sessionContext.connectionStatusChanged.connect((_, status) => status !== "connected" && this.lookForServer());
    this.lab.actions.executed.connect((_, { notebook }) => {
      if (notebook === this.panel.content && this.said[2]) this.say("");
    });
  }

  async onStatus(status) {
    if (status === "dead") return this.advise("dead", "alarm");
    if (status === "autorestarting" || status === "restarting") {
      this.fallen = status;
      return this.say("restarting", "alarm");
    }
    if (status !== "idle" || !this.fallen) return;
    const itself = this.fallen === "autorestarting";
    this.fallen = false;
    await this.liveAgain(itself);
  }

  /* Run again after Python fell over by itself; after a restart by hand, leave the next step to that hand. */
  async liveAgain(itself) {
    if (itself && (await this.run())) return;
    this.advise(itself ? "altered" : "restarted");
  }

  /* Say what to do by hand, until it was done. */
  advise(word, kind = "note") {
    this.say(word, kind, true);
  }

  /* Ask the server until it answers; say so meanwhile, and afterwards what was said before. */
  async lookForServer() {
    if (this.looking) return;
    const before = this.said;
    this.looking = true;
    while (!this.panel.isDisposed && !(await this.serverAnswers())) {
      this.say("unreachable", "alarm");
      await pause(2000);
    }
    this.looking = false;
    if (this.said[0] === "unreachable") this.say(...before);
  }

  async serverAnswers() {
    const { baseUrl } = this.lab.app.serviceManager.serverSettings;
    return fetch(`${baseUrl}api/status`, { cache: "no-store" }).then(
      () => true,
      () => false,
    );
  }

  /* Say one of WORDS, or nothing; *advised* until a cell has run. */
  say(word, kind = "calm", advised = false) {
    this.said = [word, kind, advised];
    this.bar.say(word && WORDS[word], kind);
    this.panel.node.dataset.turbomath = word || "live";
    this.lab.app.commands.notifyCommandChanged(this.lab.SHOW_CODE);
  }

  showCode(shown) {
    this.codeShown = shown;
    this.panel.node.classList.toggle("turbomath-quiet", !shown);
    this.panel.toolbar.setHidden(!shown);
    for (const cell of this.panel.content.widgets) {
      if (shown && cell.model.type === "code") cell.inputHidden = false;
      cell.readOnly = !shown || cell.model.getMetadata("editable") === false;
    }
    this.lab.app.commands.notifyCommandChanged(this.lab.SHOW_CODE);
  }
}
