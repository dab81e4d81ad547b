import { type Fault, type PathStep, fault } from '../kernel/fault';

/**
 * Finds keys that stand twice in one object, and keys named `__proto__`, in text that is valid JSON: `JSON.parse` keeps
 * only the last of two, so that something would be lost unseen. One pass over the text, a stack of the open objects and
 * lists; the cost is linear. The order of faults is that of the text.
 * @source RFC 8259, section 4: names within an object should be unique
 */
export function findKeyFaults(json: string): Fault[] {
	const faults: Fault[] = [];
	const open: Level[] = [];
	let isKeyNext = false;
	for (let at = 0; at < json.length; at++) {
		const level = open.at(-1);
		switch (json.charCodeAt(at)) {
			case 0x7b: // {
				open.push({ keys: new Set(), step: '' });
				isKeyNext = true;
				break;
			case 0x5b: // [
				open.push({ keys: undefined, step: 0 });
				isKeyNext = false;
				break;
			case 0x7d: // }
			case 0x5d: // ]
				open.pop();
				isKeyNext = false;
				break;
			case 0x2c: // ,
				if (level?.keys === undefined) {
					if (level) level.step = (level.step as number) + 1;
				} else isKeyNext = true;
				break;
			case 0x22: {
				const end = endOfString(json, at);
				if (isKeyNext && level?.keys) {
					const written = json.slice(at + 1, end);
					const key = written.includes('\\') ? (JSON.parse(`"${written}"`) as string) : written;
					level.step = key;
					if (level.keys.has(key)) faults.push(keyFault(open, 'a key that stands once in its object'));
					else if (key === '__proto__') faults.push(keyFault(open, 'another key: this name is not allowed'));
					level.keys.add(key);
					isKeyNext = false;
				}
				at = end;
				break;
			}
		}
	}
	return faults;
}

interface Level {
	readonly keys: Set<string> | undefined;
	step: PathStep;
}

function keyFault(open: readonly Level[], expected: string): Fault {
	const steps = open.map((level) => level.step);
	return fault(steps, steps.at(-1), expected);
}

function endOfString(json: string, start: number): number {
	let end = json.indexOf('"', start + 1);
	while (isEscaped(json, end)) end = json.indexOf('"', end + 1);
	return end;
}

/** Whether an odd number of backslashes stands before a place. */
function isEscaped(json: string, at: number): boolean {
	let first = at;
	while (json.charCodeAt(first - 1) === 0x5c) first--;
	return (at - first) % 2 === 1;
}
