// A classic script, because those still run where a host sends modules with a wrong type: says so when page.js did not.
addEventListener("load", () =>
  setTimeout(() => {
    if (window.loadsteadPage) return;
    const line = document.querySelector("#engine-status .engine-status-text");
    if (line) {
      line.textContent =
        "The page's script could not be started: it is missing on this site, or sent with a wrong type (scripts must be sent as text/javascript). The sheet below stays readable; it shows the workshop's own starting build.";
      line.parentElement.dataset.state = "failed";
    }
  }, 3000),
);
