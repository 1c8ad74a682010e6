/** Measures along the axes of the scatter plot, kept while views change and written into links. */
import { signal } from '@preact/signals';

/** Ids of measures; an empty one stands for the front's own objectives in order. */
export const axisX = signal('');
export const axisY = signal('');
/** Third measure as size; 'none' for none. */
export const axisSize = signal('');
