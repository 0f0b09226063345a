// A classic script, because those still run from a file and where a host sends modules with a wrong type: it says so
// when page.js did not start.
addEventListener("load", () =>
  setTimeout(() => {
    if (window.loadsteadPage) return;
    const line = document.querySelector("#engine-status .engine-status-text");
    if (!line) return;
    const why =
      location.protocol === "file:"
        ? "Opened from a file, this page cannot compute. Serve the folder (loadstead site serve, or any web host) and open its address."
        : "The page's script could not be started: it is missing on this site, or sent with a wrong type (scripts must be sent as text/javascript).";
    line.textContent = `${why} The sheet below stays readable; it shows the workshop's own starting build.`;
    line.parentElement.dataset.state = "failed";
  }, 3000),
);
