/** An attribute of a resource, as its schema declares it. @source RFC 7643, section 7 */
export interface Attribute {
	readonly name: string;
	readonly type: 'string' | 'boolean' | 'integer' | 'dateTime' | 'reference' | 'complex';
	readonly multiValued: boolean;
	readonly description: string;
	readonly required: boolean;
	readonly caseExact: boolean;
	readonly mutability: 'readWrite' | 'readOnly';
	readonly returned: 'always' | 'default';
	readonly uniqueness: 'none' | 'server';
	readonly canonicalValues?: readonly string[];
	readonly referenceTypes?: readonly string[];
	readonly subAttributes?: readonly Attribute[];
}

export interface Schema {
	/** Its URN. */
	readonly id: string;
	readonly name: string;
	readonly description: string;
	readonly attributes: readonly Attribute[];
}

type Traits = Partial<Omit<Attribute, 'name' | 'description'>>;

/** An attribute with the characteristics that hold where none are told. @source RFC 7643, section 2.2 */
export function attribute(name: string, description: string, traits: Traits = {}): Attribute {
	return {
		name,
		type: 'string',
		multiValued: false,
		description,
		required: false,
		caseExact: false,
		mutability: 'readWrite',
		returned: 'default',
		uniqueness: 'none',
		...traits
	};
}

/** An attribute made of others. */
export function complex(name: string, description: string, subAttributes: readonly Attribute[], traits: Traits = {}) {
	return attribute(name, description, { type: 'complex', subAttributes, ...traits });
}

/** An attribute with several values, each with its type and one of them primary. @source RFC 7643, section 2.4 */
export function several(name: string, description: string, subAttributes: readonly Attribute[], types: string[]) {
	return complex(
		name,
		description,
		[
			...subAttributes,
			attribute('type', 'What the value is for.', { canonicalValues: types }),
			attribute('primary', 'Whether this is the preferred value; true for one at most.', { type: 'boolean' })
		],
		{ multiValued: true }
	);
}
