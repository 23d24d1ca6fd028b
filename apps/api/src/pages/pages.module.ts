import { Module } from '@nestjs/common';
import { PagesController } from './pages.controller.ts';

@Module({ controllers: [PagesController] })
export class PagesModule {}
