import { t } from '../../i18n/text.ts';

type KeyWord =
  | 'places'
  | 'help'
  | 'leave'
  | 'say'
  | 'move'
  | 'raise'
  | 'jaws'
  | 'open'
  | 'fold'
  | 'instrument'
  | 'incision'
  | 'pause'
  | 'restart'
  | 'bringBack'
  | 'magnify';

type Shortcut = readonly [keys: readonly string[], word: KeyWord];

const EVERYWHERE: readonly Shortcut[] = [
  [['Ctrl 1', 'Ctrl 2', 'Ctrl 3', 'Ctrl 4', 'Ctrl 5'], 'places'],
  [['F1'], 'help'],
  [['Esc'], 'leave'],
];

const AT_THE_STAGE: readonly Shortcut[] = [
  [['←', '→', '↑', '↓'], 'move'],
  [['Page Up', 'Page Down'], 'raise'],
  [['Enter'], 'jaws'],
  [['Esc'], 'open'],
  [['F'], 'fold'],
  [['1', '2', '3'], 'instrument'],
  [['I'], 'incision'],
  [['Space'], 'pause'],
  [['R'], 'restart'],
  [['Ctrl Z'], 'bringBack'],
  [['+', '−', '0'], 'magnify'],
  [['V'], 'say'],
];

const List = ({ title, shortcuts }: { readonly title: string; readonly shortcuts: readonly Shortcut[] }) => (
  <section>
    <h4>{title}</h4>
    <dl className="help-keys">
      {shortcuts.map(([keys, word]) => (
        <div key={word}>
          <dt>
            {keys.map((key) => (
              <kbd key={key}>{key}</kbd>
            ))}
          </dt>
          <dd>{t(`common.key.${word}`)}</dd>
        </div>
      ))}
    </dl>
  </section>
);

/** The keys that work everywhere and at the stage. */
export function KeysPage() {
  return (
    <>
      <h3>{t('common.help.keys')}</h3>
      <p>{t('common.help.keysIntro')}</p>
      <List title={t('common.key.everywhere')} shortcuts={EVERYWHERE} />
      <List title={t('common.key.stage')} shortcuts={AT_THE_STAGE} />
    </>
  );
}
