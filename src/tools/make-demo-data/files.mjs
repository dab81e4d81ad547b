import { utf8 } from './csv-text.mjs';
import { damagedFiles } from './damaged.mjs';
import { jsonText } from './json-text.mjs';
import { kilnYardRoster } from './kiln-yard-roster.mjs';
import { kilnYard } from './kiln-yard.mjs';
import { larkfen } from './larkfen/document.mjs';
import { mends } from './larkfen/mends.mjs';
import { doorList, hrExport, weekExport, weekUnicode } from './larkfen/spreadsheets.mjs';

/** @param {unknown} value */
function json(value) {
	return utf8(`${jsonText(value)}\n`);
}

/**
 * Every file of `demo-data` that is made here, by its path below that folder. The same bytes on every machine.
 * @returns {Map<string, Uint8Array>}
 */
export function demoFiles() {
	return new Map([
		['larkfen-cold-store.json', json(larkfen())],
		['larkfen-mends.json', json(mends())],
		['larkfen-hr-export.csv', hrExport()],
		['larkfen-hr-week-48.csv', weekExport()],
		['larkfen-hr-week-48-unicode.txt', weekUnicode()],
		['larkfen-doors.csv', doorList()],
		['tutorial-kiln-yard.json', json(kilnYard())],
		['tutorial-kiln-yard-roster.csv', kilnYardRoster()],
		...[...damagedFiles()].map(([name, bytes]) => /** @type {const} */ ([`damaged/${name}`, bytes]))
	]);
}
