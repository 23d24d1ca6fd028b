export { PagesModule } from './pages.module.ts';
export { serveWebApp } from './web.ts';
