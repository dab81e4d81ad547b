/** A JSON value. */
export type Json = string | number | boolean | null | readonly Json[] | JsonObject;
export interface JsonObject {
	readonly [key: string]: Json | undefined;
}

/** What kind of mistake a refusal with status 400 or 409 tells. @source RFC 7644, section 3.12, table 9 */
export type ScimType =
	| 'invalidFilter'
	| 'tooMany'
	| 'uniqueness'
	| 'mutability'
	| 'invalidSyntax'
	| 'invalidPath'
	| 'noTarget'
	| 'invalidValue';

/** Why a request was refused. */
export interface ScimError {
	readonly status: number;
	readonly scimType?: ScimType;
	/** A sentence for people. */
	readonly detail: string;
}

export type ScimResult<T> =
	{ readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: ScimError };

/** A value that was asked for. */
export function given<T>(value: T): ScimResult<T> {
	return { ok: true, value };
}

/** A refusal with status 400 and its kind. */
export function wrong(scimType: ScimType, detail: string): { readonly ok: false; readonly error: ScimError } {
	return { ok: false, error: { status: 400, scimType, detail } };
}

/** A refusal with another status. */
export function refusedWith(
	status: number,
	detail: string,
	scimType?: ScimType
): { readonly ok: false; readonly error: ScimError } {
	return { ok: false, error: { status, detail, ...(scimType === undefined ? {} : { scimType }) } };
}

/** True for a JSON object. */
export function isObject(value: unknown): value is JsonObject {
	return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** True for what counts as no value. @source RFC 7643, section 2.5: null and the empty list are unassigned */
export function isUnassigned(value: Json | undefined): boolean {
	if (value === undefined || value === null) return true;
	if (Array.isArray(value)) return value.length === 0;
	return isObject(value) && Object.values(value).every(isUnassigned);
}

/** The body of a refusal. @source RFC 7644, section 3.12 */
export function errorBody({ status, scimType, detail }: ScimError): JsonObject {
	return {
		schemas: ['urn:ietf:params:scim:api:messages:2.0:Error'],
		status: String(status),
		...(scimType === undefined ? {} : { scimType }),
		detail
	};
}
