/** The options of `verify-record`. */
export const verifyOptions = [
	{
		name: 'data',
		isFlag: false,
		placeholder: 'FOLDER',
		description: 'The data folder; that of DOORWRIGHT_DATA, else data, where left out'
	},
	{ name: 'rollout', isFlag: false, placeholder: 'ID', description: 'Only the record of this rollout' },
	{
		name: 'head',
		isFlag: false,
		placeholder: 'HEAD',
		description:
			'A head printed earlier, number and seal, that the record of the rollout must hold (like 12·3f09ab77c1)'
	}
] as const;
