/** What a letter says, in both languages. No text of a record and no person's name goes into a letter. */
interface Words {
  readonly subject: (operation: string, first: string, more: number) => string;
  readonly due: string;
  readonly broken: string;
  readonly open: string;
  readonly why: string;
  readonly caution: string;
}

export const letterWords: Readonly<Record<'en' | 'es', Words>> = {
  en: {
    subject: (operation, first, more) => `${operation}: ${first}${more === 0 ? '' : `, and ${String(more)} more`}`,
    due: 'Due:',
    broken: 'Outside a limit, or not met:',
    open: 'What was recorded, and what to do next, stands in Furrowmark. What was done meanwhile and is still on a phone without reception is not known here.',
    why: 'You get this letter because you asked for it. Under More, “Alerts by e-mail”, you change or end it.',
    caution:
      'Electricity beside wet tanks, chlorine and what may live in tea deserve care, at night above all. Labels, local codes and your certifier come first.',
  },
  es: {
    subject: (operation, first, more) => `${operation}: ${first}${more === 0 ? '' : `, y ${String(more)} más`}`,
    due: 'Por hacer:',
    broken: 'Fuera de un límite, o sin cumplir:',
    open: 'Lo anotado, y lo que sigue, está en Furrowmark. Lo que se hizo entretanto y sigue en un teléfono sin señal no se sabe aquí.',
    why: 'Recibe esta carta porque la pidió. En Más, «Avisos por correo», la cambia o la termina.',
    caution:
      'La electricidad junto a tanques mojados, el cloro y lo que puede vivir en el té piden cuidado, de noche sobre todo. Las etiquetas, las normas locales y su certificadora van primero.',
  },
};

/** What rules ask for, in the language of the letter. */
export { dueIn as whatIn } from '@furrowmark/rules';
