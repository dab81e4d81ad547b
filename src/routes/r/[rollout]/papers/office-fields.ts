/** What papers take from the privacy office of a rollout, as the form asks for it. */
export const officeFields = [
	{ name: 'controller', label: 'Responsible for the data', hint: 'As papers name it' },
	{ name: 'address', label: 'Address', hint: undefined },
	{ name: 'contact', label: 'Contact', hint: 'Whom people ask about their data' },
	{ name: 'officer', label: 'Data protection officer', hint: 'Where there is one' },
	{ name: 'purpose', label: 'Purpose', hint: 'What templates are used for' },
	{ name: 'alternative', label: 'Other credential', hint: 'For whoever declines' },
	{ name: 'recipients', label: 'Recipients', hint: 'Who else gets the data' },
	{ name: 'safeguards', label: 'How it is kept safe', hint: undefined },
	{ name: 'publishedAt', label: 'Where the policy can be read', hint: undefined }
] as const;
