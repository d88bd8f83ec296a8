// Before anything is drawn: the reader's own choice of light or dark, else the system's.
(() => {
  const kept = localStorage.getItem('lanemend.theme');
  const dark = kept ? kept === 'dark' : matchMedia('(prefers-color-scheme: dark)').matches;
  document.documentElement.dataset.theme = dark ? 'dark' : 'light';
})();
