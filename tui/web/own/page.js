"use strict";
// The terminal measures its cells once, as it starts: with the font not yet there it
// would measure another one. So the start waits for the font.
const begin = window.onload;
window.onload = null;
window.addEventListener("load", async (event) => {
  await Promise.allSettled(
    ["16px", "bold 16px"].map((size) => document.fonts.load(`${size} "Roboto Mono"`)),
  );
  begin.call(window, event);
});

// Keys work at once, without a click.
document.addEventListener("DOMContentLoaded", () => {
  const started = new MutationObserver(() => {
    if (document.body.classList.contains("-first-byte")) {
      started.disconnect();
      document.querySelector(".xterm-helper-textarea")?.focus();
    }
  });
  started.observe(document.body, { attributeFilter: ["class"] });
});

// A file that arrives is saved from this page. A new window is not opened for it: one
// that opens long after the key was pressed is held back by browsers.
const elsewhere = window.open.bind(window);
window.open = (address, target) => {
  const url = new URL(address, window.location.href);
  if (url.origin === window.location.origin && url.pathname.startsWith("/download/")) {
    const link = document.createElement("a");
    link.href = url.href;
    link.download = "";
    document.body.append(link);
    link.click();
    link.remove();
    return null;
  }
  return elsewhere(url.href, target, "noopener");
};

document.addEventListener("DOMContentLoaded", () => {
  const again = document.querySelector("#again");
  again.addEventListener("click", () => window.location.reload());
});
