// Words offered below a field open upwards where there is no room below them.

export function fitOffers(list: HTMLElement | null): void {
  if (!list) return;
  list.classList.remove("is-upward");
  const floor = list.closest(".sheet")?.getBoundingClientRect().bottom ?? window.innerHeight;
  const box = list.getBoundingClientRect();
  const above =
    (list.parentElement?.getBoundingClientRect().top ?? 0) -
    (list.closest(".sheet")?.getBoundingClientRect().top ?? 0) -
    144;
  if (box.bottom > floor && above > box.height) list.classList.add("is-upward");
}
