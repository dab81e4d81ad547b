/** The sheets that belong to no rollout, in the order of the index. */
export const coverSheets = [
	{ code: '0', name: 'Rollouts', href: '/' },
	{ code: 'H-1', name: 'How to read the sheets', href: '/help' },
	{ code: 'H-2', name: 'Findings', href: '/help/findings' },
	{ code: 'H-3', name: 'The document', href: '/help/document' },
	{ code: 'H-4', name: 'Command line', href: '/help/command-line' },
	{ code: 'H-5', name: 'Rule packs', href: '/help/rule-packs' },
	{ code: 'H-6', name: 'Cautions', href: '/help/cautions' },
	{ code: 'H-7', name: 'About and licenses', href: '/help/about' },
	{ code: 'H-8', name: 'Open standards', href: '/help/open-standards' },
	{ code: 'H-9', name: 'Identity provider', href: '/help/identity-provider' }
] as const;
