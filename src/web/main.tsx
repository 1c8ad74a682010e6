/** The page: mounts the app and starts what lives as long as the page. */
import { render } from 'preact';
import { App } from './app.tsx';
import { beginBrief, watchBrief } from './state/brief.ts';
import { followLinks } from './state/link.ts';
import { followHash } from './state/route.ts';
import { recallOwnNotes } from './state/notes.ts';
import { offerKeptRun } from './state/run.ts';
import { openDesk } from './state/desk.ts';

const root = document.querySelector('#page');
if (root === null) throw new Error('index.html has no #page.');
root.replaceChildren();
followHash();
followLinks();
openDesk();
watchBrief();
void beginBrief();
void recallOwnNotes();
void offerKeptRun();
render(<App />, root);
