/** Notes of the system for a run that ends while nobody looks: asked for by a click, never before. */
import { signal } from '@preact/signals';

const known = typeof Notification === 'undefined' ? 'denied' : Notification.permission;
/** Whether the user can still be asked. */
export const mayAskForNotes = signal(known === 'default');

export async function askForNotes(): Promise<void> {
  const answer = await Notification.requestPermission();
  mayAskForNotes.value = answer === 'default';
}

/** Shows a note when the page is not in sight and notes are allowed. */
export function note(text: string): void {
  if (document.visibilityState === 'visible' || typeof Notification === 'undefined') return;
  if (Notification.permission === 'granted') void new Notification('anfract', { body: text });
}
