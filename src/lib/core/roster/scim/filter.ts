import type { AttributePath } from './resolve';

export const compareOperators = ['eq', 'ne', 'co', 'sw', 'ew', 'gt', 'ge', 'lt', 'le'] as const;
export type CompareOperator = (typeof compareOperators)[number];

/** A filter as it was read. @source RFC 7644, section 3.4.2.2, figure 1 */
export type Filter =
	| { readonly kind: 'present'; readonly path: AttributePath }
	| {
			readonly kind: 'compare';
			readonly path: AttributePath;
			readonly operator: CompareOperator;
			readonly value: string | number | boolean | null;
	  }
	| { readonly kind: 'and' | 'or'; readonly parts: readonly Filter[] }
	| { readonly kind: 'not'; readonly part: Filter }
	/** One value of an attribute with several must fit the whole filter in brackets. */
	| { readonly kind: 'within'; readonly path: AttributePath; readonly filter: Filter };

/** The path of a change: an attribute, or of its values those that fit a filter. @source RFC 7644, section 3.5.2, figure 7 */
export interface PatchPath {
	readonly path: AttributePath;
	readonly filter: Filter | undefined;
	/** The sub-attribute after the brackets. */
	readonly sub: string | undefined;
}

/** Writes a filter so that reading it gives the same filter. */
export function printFilter(filter: Filter): string {
	switch (filter.kind) {
		case 'present':
			return `${printPath(filter.path)} pr`;
		case 'compare':
			return `${printPath(filter.path)} ${filter.operator} ${JSON.stringify(filter.value)}`;
		case 'not':
			return `not (${printFilter(filter.part)})`;
		case 'within':
			return `${printPath(filter.path)}[${printFilter(filter.filter)}]`;
		default:
			return filter.parts
				.map((part) => {
					const needsParentheses = part.kind === 'or' || part.kind === filter.kind;
					return needsParentheses ? `(${printFilter(part)})` : printFilter(part);
				})
				.join(` ${filter.kind} `);
	}
}

/** Writes the path of an attribute. */
export function printPath({ urn, name, sub }: AttributePath): string {
	return `${urn === undefined ? '' : `${urn}:`}${name}${sub === undefined ? '' : `.${sub}`}`;
}
