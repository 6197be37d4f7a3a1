import type { Messages } from './languages.ts';

declare module 'i18next' {
  interface CustomTypeOptions {
    resources: { translation: Messages };
  }
}
