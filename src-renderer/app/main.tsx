import { createRoot } from 'react-dom/client';
import { keepView } from '../stores/keep-view.ts';
import { App } from './App.tsx';
import './theme.css';

void keepView();
const root = document.getElementById('root');
if (root === null) throw new Error('the page has no root element');
createRoot(root).render(<App />);
