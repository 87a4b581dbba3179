// Runs the workbook's own notebooks when they are opened (or looked at again after the build changed), and keeps
// their code out of sight. Other notebooks are left alone: ours say so in their metadata.
// Plain script, no build step: JupyterLab asks a container for its module and activates the plugin it returns.
(() => {
  const NAME = "tutorial-workbook";
  const STAMP = "__import__('tutorial_lib.workbook.current', fromlist=['stamp']).stamp()";
  const WAIT = 800; // [ms] after which work is told
  const ran = new WeakMap(); // notebook widget -> stamp of the build it was run on

  const style = `
    .tw-ours:not(.tw-code) .jp-CodeCell > .jp-Cell-inputWrapper,
    .tw-ours:not(.tw-code) .jp-InputPrompt, .tw-ours:not(.tw-code) .jp-OutputPrompt,
    .tw-ours:not(.tw-code) .jp-InputCollapser, .tw-ours:not(.tw-code) .jp-OutputCollapser,
    .tw-ours:not(.tw-code) .jp-Placeholder, .tw-ours:not(.tw-code) .jp-Notebook-footer,
    .tw-ours:not(.tw-code) .jp-cell-toolbar { display: none; }
    .tw-ours:not(.tw-code) .jp-Cell { padding: 2px 12px; }
    .tw-ours:not(.tw-code) .jp-OutputArea-output { overflow: visible; }
    .tw-ours:not(.tw-code) .jp-OutputArea-child, .tw-ours:not(.tw-code) .jp-OutputArea,
    .tw-ours:not(.tw-code) .jp-Cell-outputWrapper, .tw-ours:not(.tw-code) .jp-Cell-outputArea {
      overflow: visible; min-width: 0; }
    .tw-ours:not(.tw-code) .jp-RenderedMarkdown h1 { margin: 0 0 2px; }
    .tw-ours:not(.tw-code) .jp-RenderedMarkdown p { margin-bottom: 4px; }
    .tw-wait { position: absolute; top: 38px; right: 28px; z-index: 10; padding: 3px 12px; font-weight: 600;
      color: var(--jp-ui-inverse-font-color0); background: var(--jp-inverse-layout-color0); }
    .tw-wait:empty { display: none; }
    @media (min-width: 2600px) { .tw-ours .jp-RenderedMarkdown { zoom: 1.35; } }`;

  function whenIdle(session) {
    return new Promise((done) => {
      const look = () => {
        const kernel = session.session?.kernel;
        if (kernel && kernel.connectionStatus === "connected" && kernel.status === "idle") done(kernel);
        else setTimeout(look, 100);
      };
      look();
    });
  }

  // Who waits is told so: opening runs a whole notebook, and a move may take some seconds too.
  function watch(page) {
    const sign = document.createElement("div");
    sign.className = "tw-wait";
    sign.setAttribute("role", "status");
    page.node.append(sign);
    let soon = 0;
    page.sessionContext.statusChanged.connect((_, status) => {
      clearTimeout(soon);
      if (status === "busy") soon = setTimeout(() => (sign.textContent = "Working …"), WAIT);
      else sign.textContent = "";
    });
  }

  async function stamp(kernel) {
    const asked = kernel.requestExecute({ code: "", silent: true, store_history: false, user_expressions: { s: STAMP } });
    const reply = await asked.done;
    return reply.content.user_expressions?.s?.data?.["text/plain"] ?? "";
  }

  async function visit(app, page) {
    if (!page?.context?.path?.endsWith(".ipynb")) return;
    await page.context.ready;
    if (!page.model?.getMetadata?.("tutorial_workbook") && !page.content.model?.getMetadata?.("tutorial_workbook")) return;
    if (!page.node.classList.contains("tw-ours")) watch(page);
    page.node.classList.add("tw-ours");
    const kernel = await whenIdle(page.sessionContext);
    const now = await stamp(kernel);
    if (ran.get(page) === now) return;
    ran.set(page, now);
    if (app.shell.currentWidget === page) await app.commands.execute("notebook:run-all-cells");
    ran.set(page, await stamp(kernel));
    page.node.dataset.ran = "yes";
  }

  // In a panel keys belong to the panel: Lab's own single keys would cut cells or turn them into text. A letter
  // presses the button that names it.
  function key(event, app) {
    const panel = event.target.closest?.(".tw-panel");
    if (!panel) return;
    if (event.altKey && event.code === "KeyC") {
      event.preventDefault();
      event.stopPropagation();
      app.commands.execute("tutorial-workbook:code");
      return;
    }
    const plain = !(event.altKey || event.ctrlKey || event.metaKey);
    panel.toggleAttribute("data-lm-suppress-shortcuts", plain);
    const typing = event.target.matches("select, textarea, input:not([type=checkbox])");
    const button = plain && !typing && panel.querySelector(`button[title="Key ${CSS.escape(event.key.toUpperCase())}"]`);
    if (!button?.offsetParent) return;
    event.preventDefault();
    event.stopPropagation();
    button.click();
  }

  const plugin = {
    id: `${NAME}:notebooks`,
    autoStart: true,
    activate: (app) => {
      const sheet = document.createElement("style");
      sheet.textContent = style;
      document.head.append(sheet);
      app.commands.addCommand("tutorial-workbook:code", {
        label: "Show or hide the code of this notebook",
        execute: () => {
          const shown = app.shell.currentWidget?.node.classList.toggle("tw-code");
          return app.commands.execute(shown ? "notebook:show-all-cell-code" : "notebook:hide-all-cell-code");
        },
      });
      window.addEventListener("keydown", (event) => key(event, app), true);
      app.commands.addKeyBinding({ command: "tutorial-workbook:code", keys: ["Alt C"], selector: ".tw-ours" });
      const look = () => visit(app, app.shell.currentWidget).catch((fault) => console.warn(NAME, fault));
      app.restored.then(() => {
        app.shell.currentChanged.connect(look);
        window.addEventListener("focus", look);
        look();
      });
    },
  };

  window._JUPYTERLAB = window._JUPYTERLAB || {};
  window._JUPYTERLAB[NAME] = {
    init: () => undefined,
    get: () => Promise.resolve(() => ({ __esModule: true, default: plugin })),
  };
})();
