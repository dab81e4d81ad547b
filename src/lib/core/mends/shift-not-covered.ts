import { defineMend } from './define-mend';
import { proposalOfShifts } from './support/of-shifts';

export default defineMend({
	code: 'shift-not-covered',
	asks: ['person'],
	propose: (input) => proposalOfShifts(input, (isOnHoliday) => !isOnHoliday)
});
