import Markdown from 'react-markdown';

/** What a text may be made of; anything else shows as its words. Nothing leads out of the program and nothing is fetched. */
const SHOWN = [
  'p',
  'em',
  'strong',
  'ul',
  'ol',
  'li',
  'h1',
  'h2',
  'h3',
  'h4',
  'h5',
  'h6',
  'blockquote',
  'code',
  'pre',
  'br',
  'hr',
] as const;

/** A board's text: Markdown without HTML, links or pictures. */
export function BoardText({ text }: { readonly text: string }) {
  return (
    <div className="board-text">
      <Markdown skipHtml allowedElements={[...SHOWN]} unwrapDisallowed>
        {text}
      </Markdown>
    </div>
  );
}
