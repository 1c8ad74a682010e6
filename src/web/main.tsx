/** The page: mounts the app and starts what lives as long as the page. */
import { render } from 'preact';
import { App } from './app.tsx';
import { EXAMPLES, takeExample, watchBrief } from './state/brief.ts';
import { followHash } from './state/route.ts';
import { offerKeptRun } from './state/run.ts';
import { openDesk } from './state/desk.ts';

const root = document.querySelector('#page');
if (root === null) throw new Error('index.html has no #page.');
root.replaceChildren();
followHash();
openDesk();
watchBrief();
void takeExample(EXAMPLES[0].file);
void offerKeptRun();
render(<App />, root);
