/** What the editor tells a page of its theme: the class of the body, and colours as properties. */
export interface Theme {
  readonly name: string;
  readonly body: string;
  readonly properties: Readonly<Record<string, string>>;
}

const fonts = {
  '--vscode-font-family': '"DejaVu Sans", "Noto Sans", sans-serif',
  '--vscode-font-size': '13px',
  '--vscode-editor-font-family': '"DejaVu Sans Mono", monospace',
};

export const lightTheme: Theme = {
  name: 'light',
  body: 'vscode-light',
  properties: {
    ...fonts,
    '--vscode-foreground': '#3b3b3b',
    '--vscode-editor-background': '#ffffff',
    '--vscode-focusBorder': '#005fb8',
    '--vscode-textLink-foreground': '#005fb8',
    '--vscode-list-hoverBackground': '#f2f2f2',
    '--vscode-editor-selectionHighlightBackground': '#add6ff80',
    '--vscode-dropdown-background': '#ffffff',
    '--vscode-dropdown-foreground': '#3b3b3b',
    '--vscode-dropdown-border': '#cecece',
    '--vscode-editorError-foreground': '#c72e0f',
    '--vscode-editorWarning-foreground': '#8a6500',
    '--vscode-editorInfo-foreground': '#1a72c2',
    '--vscode-charts-blue': '#1a72c2',
    '--vscode-charts-orange': '#b5601d',
    '--vscode-charts-purple': '#652d90',
    '--vscode-charts-green': '#388a34',
    '--vscode-charts-yellow': '#8a6500',
    '--vscode-charts-red': '#c72e0f',
  },
};

export const themes: readonly Theme[] = [
  lightTheme,
  {
    name: 'dark',
    body: 'vscode-dark',
    properties: {
      ...fonts,
      '--vscode-foreground': '#cccccc',
      '--vscode-editor-background': '#1f1f1f',
      '--vscode-focusBorder': '#0078d4',
      '--vscode-textLink-foreground': '#4daafc',
      '--vscode-list-hoverBackground': '#2a2d2e',
      '--vscode-editor-selectionHighlightBackground': '#add6ff26',
      '--vscode-dropdown-background': '#313131',
      '--vscode-dropdown-foreground': '#cccccc',
      '--vscode-dropdown-border': '#3c3c3c',
      '--vscode-editorError-foreground': '#f85149',
      '--vscode-editorWarning-foreground': '#cca700',
      '--vscode-editorInfo-foreground': '#59a4f9',
      '--vscode-charts-blue': '#59a4f9',
      '--vscode-charts-orange': '#d18616',
      '--vscode-charts-purple': '#b180d7',
      '--vscode-charts-green': '#89d185',
      '--vscode-charts-yellow': '#cca700',
      '--vscode-charts-red': '#f85149',
    },
  },
  {
    name: 'high-contrast',
    body: 'vscode-high-contrast',
    properties: {
      ...fonts,
      '--vscode-foreground': '#ffffff',
      '--vscode-editor-background': '#000000',
      '--vscode-contrastBorder': '#6fc3df',
      '--vscode-contrastActiveBorder': '#f38518',
      '--vscode-focusBorder': '#f38518',
      '--vscode-textLink-foreground': '#21a6ff',
      '--vscode-dropdown-background': '#000000',
      '--vscode-dropdown-foreground': '#ffffff',
      '--vscode-dropdown-border': '#6fc3df',
      '--vscode-editorError-foreground': '#f48771',
      '--vscode-editorWarning-foreground': '#ffd370',
      '--vscode-editorInfo-foreground': '#59a4f9',
      '--vscode-charts-blue': '#59a4f9',
      '--vscode-charts-orange': '#d18616',
      '--vscode-charts-purple': '#b180d7',
      '--vscode-charts-green': '#89d185',
      '--vscode-charts-yellow': '#ffd370',
      '--vscode-charts-red': '#f48771',
    },
  },
];
