/**
 * The entry as it stood when a form was shown, which the form sends back in the field `was`: for lists without ids, so
 * that a place which means another entry by now is refused and not overwritten. Nothing where it was not sent.
 */
export function wasIn(form: FormData): { was?: unknown } {
	const text = form.get('was');
	if (typeof text !== 'string') return {};
	try {
		return { was: JSON.parse(text) as unknown };
	} catch {
		// No entry is written like this, so the edit refuses it as one that has changed.
		return { was: text };
	}
}
