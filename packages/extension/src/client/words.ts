import { l10n } from 'vscode';

/** Counts in words. */
export const countOf = {
  errors: (count: number): string => (count === 1 ? l10n.t('1 error') : l10n.t('{0} errors', count)),
  warnings: (count: number): string => (count === 1 ? l10n.t('1 warning') : l10n.t('{0} warnings', count)),
  infos: (count: number): string => (count === 1 ? l10n.t('1 note') : l10n.t('{0} notes', count)),
  procedures: (count: number): string => (count === 1 ? l10n.t('1 procedure') : l10n.t('{0} procedures', count)),
  sheets: (count: number): string => (count === 1 ? l10n.t('1 sheet') : l10n.t('{0} sheets', count)),
};
