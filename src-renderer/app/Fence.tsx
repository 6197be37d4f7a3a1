import { Component, type ReactNode } from 'react';
import { t } from '../i18n/text.ts';

/** Shows a fault of ours in words instead of an empty window. */
export class Fence extends Component<{ readonly children: ReactNode }, { readonly fault: string | null }> {
  override state: { readonly fault: string | null } = { fault: null };

  static getDerivedStateFromError(fault: unknown): { readonly fault: string } {
    return { fault: fault instanceof Error ? fault.message : String(fault) };
  }

  override render(): ReactNode {
    if (this.state.fault === null) return this.props.children;
    return (
      <div className="fence" role="alert">
        <h2>{t('common.fence.title')}</h2>
        <p lang="en">{this.state.fault}</p>
        <button type="button" onClick={() => this.setState({ fault: null })}>
          {t('common.fence.again')}
        </button>
      </div>
    );
  }
}
