// An entry that the engine could not read: its field is marked, and the reader is led to it.

// A length has two fields, months have twelve.
function fieldsOf(form, name) {
  const named = [name, `${name}.ft`, `${name}.in`].map((n) => `[name="${CSS.escape(n)}"]`);
  return form.querySelectorAll(named.join());
}

// `name` is null once all can be read.
export function markRefused(form, name) {
  for (const field of form.querySelectorAll("[aria-invalid]")) field.removeAttribute("aria-invalid");
  if (name) for (const field of fieldsOf(form, name)) field.setAttribute("aria-invalid", "true");
}

export function showRefused(form, button) {
  const [field] = fieldsOf(form, button.closest("[data-field]").dataset.field);
  const fold = field?.closest("details");
  if (fold) fold.open = true;
  field?.focus({ preventScroll: true });
  field?.scrollIntoView({ block: "center", behavior: "instant" });
}
