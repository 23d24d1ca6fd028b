export { Reviews, type NewReview, type Review, type Signed } from './reviews.ts';
