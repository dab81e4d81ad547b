import { type ReportItem, reported } from './report';

/** The most characters of a token and of a name. */
const most = 64;

/** Gives out tokens of one kind of entity: the text itself where it can be, else shortened and counted on. */
export class Tokens {
	readonly #used = new Set<string>();

	take(wanted: string): string {
		let token = cut(wanted, most);
		for (let n = 2; this.#used.has(token); n++) token = `${cut(wanted, most - 1 - String(n).length)}~${n}`;
		this.#used.add(token);
		return token;
	}
}

/** A name of at most 64 characters, and what is to be told where it is cut. */
export function nameFields(
	name: string,
	path: string,
	report: ReportItem[]
): { readonly Name: string; readonly Description?: string } {
	if ([...name].length <= most) return { Name: name };
	report.push(reported('name-cut', path, name));
	return { Name: cut(name, most), Description: cut(name, 1024) };
}

function cut(text: string, length: number): string {
	return [...text].slice(0, length).join('');
}
