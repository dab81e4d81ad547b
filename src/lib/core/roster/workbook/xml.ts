import { Parser } from 'saxen';

/** What is heard while XML is read: names come without their prefix, attributes are asked for without theirs. */
export interface XmlEars {
	open(name: string, attribute: (name: string) => string | undefined): void;
	close?(name: string): void;
	text?(text: string): void;
}

/** XML that is none, or that ends too early. */
export class XmlFault extends Error {}

/**
 * Reads a part of a workbook from beginning to end. Entities of its own are not resolved, so that a few lines cannot
 * become a great many. Throws `XmlFault`.
 */
export function readXml(bytes: Uint8Array, ears: XmlEars): void {
	const parser = new Parser();
	const seen = { depth: 0, tags: 0 };
	parser.on('openTag', (name, attributes, decode) => {
		let all: Record<string, string> | undefined;
		seen.depth++;
		seen.tags++;
		ears.open(localName(name), (attribute) => {
			all ??= attributes();
			const key = Object.hasOwn(all, attribute) ? attribute : prefixed(all, attribute);
			const value = key === undefined ? undefined : all[key];
			return value?.includes('&') ? decode(value) : value;
		});
	});
	parser.on('closeTag', (name) => {
		seen.depth--;
		ears.close?.(localName(name));
	});
	const hear = ears.text?.bind(ears);
	if (hear) {
		parser.on('text', (text, decode) => hear(text.includes('&') ? decode(text) : text));
		parser.on('cdata', hear);
	}
	parser.on('error', (error) => {
		throw new XmlFault(error.message);
	});
	parser.on('warn', () => undefined);
	parser.parse(textOf(bytes));
	if (seen.tags === 0 || seen.depth !== 0) throw new XmlFault('it ends too early');
}

function prefixed(attributes: Readonly<Record<string, string>>, name: string): string | undefined {
	return Object.keys(attributes).find((key) => key.endsWith(`:${name}`));
}

function textOf(bytes: Uint8Array): string {
	const [first, second] = bytes;
	const isWide = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
	return new TextDecoder(isWide ? (first === 0xff ? 'utf-16le' : 'utf-16be') : 'utf-8').decode(bytes);
}

function localName(name: string): string {
	const colon = name.indexOf(':');
	return colon < 0 ? name : name.slice(colon + 1);
}
