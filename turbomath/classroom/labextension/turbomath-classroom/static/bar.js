/* The bar above a notebook: one plain sentence when there is something to say, and no height when there is not. */
export class Bar {
  constructor(panel, Widget) {
    this.node = document.createElement("div");
    this.node.className = "turbomath-bar";
    this.inner = this.node.appendChild(document.createElement("div"));
    this.inner.className = "turbomath-bar-inner";
    this.sentence = this.inner.appendChild(document.createElement("p"));
    this.sentence.setAttribute("role", "status");
    this.widget = new Widget({ node: this.node });
    panel.contentHeader.addWidget(this.widget);
    new ResizeObserver(() => this.fit()).observe(this.inner);
  }

  /* Say *words*; kind "calm", "note" or "alarm" chooses the sign before them. */
  say(words, kind = "calm") {
    if (this.sentence.textContent !== words) this.sentence.textContent = words;
    this.node.dataset.kind = kind;
    this.inner.classList.toggle("turbomath-silent", !words);
    this.fit();
  }

  /* JupyterLab lays rows out by their least height, so tell it when the sentence wraps. What is calm moves nothing. */
  fit() {
    const high = this.node.dataset.kind === "calm" ? 0 : Math.ceil(this.inner.getBoundingClientRect().height);
    this.node.style.minHeight = `${high}px`;
    this.widget.parent?.fit();
  }
}
