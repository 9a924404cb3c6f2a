// A clock that stands still until a test moves it, in the place of the browser's two. It outlives a reload.
(() => {
  const KEY = "fake clock";
  const kept = JSON.parse(sessionStorage.getItem(KEY) || "null");
  const clock = kept ?? { wall: FIRST, steady: 0 };
  const RealDate = Date;
  class FakeDate extends RealDate {
    constructor(...given) {
      super(...(given.length ? given : [clock.wall]));
    }
    static now() {
      return clock.wall;
    }
  }
  window.Date = FakeDate;
  performance.now = () => clock.steady;
  // By so many milliseconds each.
  window.moveClock = (wall, steady) => {
    clock.wall += wall;
    clock.steady += steady;
    sessionStorage.setItem(KEY, JSON.stringify(clock));
  };
  sessionStorage.setItem(KEY, JSON.stringify(clock));
})();
