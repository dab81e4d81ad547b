export { exactPlan } from './exact';
