import { defineMend } from './define-mend';
import { proposalOfShifts } from './support/of-shifts';

export default defineMend({
	code: 'holiday-lockout',
	asks: ['person'],
	propose: (input) => proposalOfShifts(input, (isOnHoliday) => isOnHoliday)
});
