import { afterAll, beforeAll } from 'vitest';
import { useBrowser } from '../support/browser';
import { fullSheets } from '../support/full-sheets';
import { judgeSheets } from '../support/judged-sheets';
import { type RunningApp, startApp } from '../support/server';

// The sheets that accessibility.test.ts leaves to the other processor.

const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

judgeSheets(fullSheets.slice(Math.ceil(fullSheets.length * 0.4)), browser, () => app);
