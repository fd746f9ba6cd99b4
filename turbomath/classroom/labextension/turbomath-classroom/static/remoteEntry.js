/* What JupyterLab loads. No bundler: it hands over its own modules, and the rest are plain files beside this one. */
(() => {
  const container = { modules: {} };
  container.init = (scope) => {
    container.modules = scope;
  };
  container.get = async () => {
    const shared = async (name) => (await Object.values(container.modules[name])[0].get())();
    const { plugins } = await import("./plugins.js");
    const found = await plugins(shared);
    return () => ({ __esModule: true, default: found });
  };
  window._JUPYTERLAB = window._JUPYTERLAB || {};
  window._JUPYTERLAB["turbomath-classroom"] = container;
})();
