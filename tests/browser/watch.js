// Test only: notes every breach of the Content-Security-Policy.
window.breaches = [];
document.addEventListener("securitypolicyviolation", (event) => {
  window.breaches.push(`${event.effectiveDirective}: ${event.blockedURI} ${event.sample} (${event.sourceFile}:${event.lineNumber})`);
});
