// A build on its way out: its link in a letter or on the clipboard. The engine knows the build, the page its address.
export function sending(form) {
  form.addEventListener("click", ({ target }) => {
    const letter = target.closest("a[data-letter]");
    if (letter) letter.href = letter.dataset.letter + encodeURIComponent(whole(letter.dataset.build));
    const button = target.closest("button[data-copy]");
    if (button) copy(whole(button.dataset.copy));
  });
}

function whole(build) {
  return new URL(build, location.href).href;
}

// Pages that came over plain http may not write to the clipboard, and a reader may refuse it.
async function copy(address) {
  try {
    await navigator.clipboard.writeText(address);
    say("Copied.");
  } catch {
    say("This browser does not let the page copy. Copy the address of “Link to this build”.");
  }
}

// The next answer of the engine brings the place back empty, as its link is then another.
function say(words) {
  const place = document.getElementById("copied");
  if (place) place.textContent = words;
}
