export { type Random, seededRandom } from '../plan/random';
