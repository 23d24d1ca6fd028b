export { PagesModule } from './pages.module.ts';
