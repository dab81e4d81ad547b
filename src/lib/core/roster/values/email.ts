const atom = /^[\p{L}\p{N}\p{M}!#$%&'*+/=?^_`{|}~-]+$/u;
const label = /^[\p{L}\p{N}](?:[\p{L}\p{N}\p{M}-]*[\p{L}\p{N}\p{M}])?$/u;

/** Addresses of ASCII alone, as nearly all are: told in one look, by the same rules. */
const plain = /^[a-z0-9_+-]+(?:\.[a-z0-9_+-]+)*@(?:[a-z0-9](?:[a-z0-9-]{0,61}[a-z0-9])?\.)+[a-z]{2,}$/i;

/**
 * True for an address that mail can be sent to: dot-atom, `@`, and a domain name of two labels or more. Letters of any
 * script are allowed. Quoted local parts, comments and addresses in brackets are not.
 * @source RFC 5321, sections 4.1.2 and 4.5.3.1 (limits in octets); RFC 6531, section 3.3; RFC 1123, section 2.1
 */
export function isEmail(text: string): boolean {
	if (text.length <= 64 && plain.test(text)) return true;
	const at = text.indexOf('@');
	if (at < 1 || at !== text.lastIndexOf('@')) return false;
	const [local, domain] = [text.slice(0, at), text.slice(at + 1)];
	if (octets(local) > 64 || octets(text) > 254) return false;
	if (!local.split('.').every((part) => atom.test(part))) return false;
	const labels = domain.split('.');
	const last = labels.at(-1) ?? '';
	return (
		labels.length >= 2 &&
		labels.every((part) => part.length <= 63 && label.test(part)) &&
		(/^\p{L}{2,}$/u.test(last) || /^xn--/i.test(last))
	);
}

function octets(text: string): number {
	// Three octets at most for each code unit: only long ones are worth counting.
	return text.length * 3 <= 64 ? text.length : new TextEncoder().encode(text).length;
}
