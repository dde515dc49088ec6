// Test only: when the first screen stood, milliseconds after the page began.
new MutationObserver((_, watch) => {
  if (!document.querySelector('[data-id="go"], [data-id="start-job"]')) return;
  watch.disconnect();
  requestAnimationFrame(() => (window.stoodAt = performance.now()));
}).observe(document, { childList: true, subtree: true });
