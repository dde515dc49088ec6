// Test only: sets the page's clock forward by the days that localStorage names.
const days = Number(localStorage.getItem("test-days-later") ?? 0);
if (days > 0) {
  const real = Date;
  const by = days * 86_400_000;
  window.Date = class extends real {
    constructor(...parts) {
      super(...(parts.length ? parts : [real.now() + by]));
    }
    static now() {
      return real.now() + by;
    }
  };
}
