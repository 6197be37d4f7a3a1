import Markdown from 'react-markdown';

/** Markdown of our own, without HTML, pictures or links: nothing is fetched and nothing leads out of the program. */
export function PlainMarkdown({ text }: { readonly text: string }) {
  return (
    <Markdown skipHtml disallowedElements={['a', 'img']} unwrapDisallowed>
      {text}
    </Markdown>
  );
}
