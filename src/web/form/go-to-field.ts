/** From a fault to its field. */

/** Opens what hides the field of a place, or of the nearest place around it, and moves there. */
export function goToField(path: string): void {
  for (let place = path; place !== ''; place = place.replace(/(?:\.|^)[^.[]*$|\[\d+\]$/u, '')) {
    const found = document.getElementById(place) ?? document.getElementById(`part-${place}`);
    if (found === null) continue;
    const fold = found.closest('details');
    if (fold !== null) fold.open = true;
    found.focus();
    found.scrollIntoView({ block: 'center' });
    return;
  }
}
