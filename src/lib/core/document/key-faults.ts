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
					const key = JSON.parse(json.slice(at, end + 1)) as string;
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
	let at = start + 1;
	for (;;) {
		const code = json.charCodeAt(at);
		if (code === 0x22) return at;
		at += code === 0x5c ? 2 : 1;
	}
}
