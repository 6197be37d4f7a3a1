import { createRoot } from 'react-dom/client';
import { keepView } from '../stores/keep-view.ts';
import { useOwnEyes } from '../stores/own-eyes.ts';
import { loadPeople } from '../stores/people-store.ts';
import { App } from './App.tsx';
import './theme.css';

void keepView();
void loadPeople();
void useOwnEyes.getState().load();
const root = document.getElementById('root');
if (root === null) throw new Error('the page has no root element');
createRoot(root).render(<App />);
