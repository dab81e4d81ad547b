/** The part of saxen that is used; it brings no types of its own. */
declare module 'saxen' {
	type Decode = (text: string) => string;

	export class Parser {
		on(
			event: 'openTag',
			hear: (name: string, attributes: () => Record<string, string>, decode: Decode, isClosed: boolean) => void
		): this;
		on(event: 'closeTag', hear: (name: string, decode: Decode, isClosed: boolean) => void): this;
		on(event: 'text', hear: (text: string, decode: Decode) => void): this;
		on(event: 'cdata', hear: (text: string) => void): this;
		on(event: 'error', hear: (error: Error) => void): this;
		on(event: 'warn', hear: (warning: Error) => void): this;
		parse(xml: string): this;
		stop(): void;
	}
}
