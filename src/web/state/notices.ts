/** What the page has to say: faults and news, newest last. */
import { signal } from '@preact/signals';

interface Notice {
  readonly id: number;
  readonly kind: 'news' | 'fault';
  readonly text: string;
}

export const notices = signal<readonly Notice[]>([]);
let next = 1;

export function tell(kind: Notice['kind'], text: string): void {
  notices.value = [...notices.value.filter((old) => old.text !== text), { id: next++, kind, text }];
}

export function dismiss(id: number): void {
  notices.value = notices.value.filter((notice) => notice.id !== id);
}

/** Words of an error for people. */
export function wordsOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** Takes away what was told with a text, or began with it. */
export function dismissText(text: string): void {
  notices.value = notices.value.filter((notice) => !notice.text.startsWith(text));
}
