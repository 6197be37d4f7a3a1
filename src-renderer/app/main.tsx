import { createRoot } from 'react-dom/client';
import { bringLetters } from '../i18n/letters.ts';
import { useLanguage } from '../i18n/text.ts';
import { keepView } from '../stores/keep-view.ts';
import { useOwnEyes } from '../stores/own-eyes.ts';
import { loadPeople } from '../stores/people-store.ts';
import { App } from './App.tsx';
import '@fontsource/noto-sans-devanagari/devanagari-400.css';
import '@fontsource/noto-sans-devanagari/devanagari-600.css';
import './theme.css';

void keepView();
void loadPeople();
void useOwnEyes.getState().load();
const root = document.getElementById('root');
if (root === null) throw new Error('the page has no root element');
await bringLetters(useLanguage.getState().language);
createRoot(root).render(<App />);
