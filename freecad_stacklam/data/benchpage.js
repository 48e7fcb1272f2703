// SPDX-License-Identifier: LGPL-2.1-or-later
// Clocks and ticks of the bench page. Times are starts kept in the browser: what is left is always the limit less the
// time since, so a page that slept shows the right time at once. Nothing waits for sound, screen or storage.
"use strict";
(() => {
  const root = document.body;
  const KEY = "stacklam bench " + root.dataset.plan;  // all pages opened from files share one storage
  const all = (query, from = document) => Array.from(from.querySelectorAll(query));
  // Words stand here in English, whole; the page that is written in another language has its own in their place.
  const fill = (text, parts) => text.replace(/\{(\w+)\}/g, (_, name) => parts[name]);
  const byId = (id) => document.getElementById(id);

  // --- what is kept -------------------------------------------------------------------------------------------------
  let state = { ticks: {}, clocks: {}, sound: false };
  let kept = true;

  function load() {
    try {
      const found = JSON.parse(localStorage.getItem(KEY) || "null");
      if (found && typeof found === "object") {
        state = { ticks: found.ticks || {}, clocks: found.clocks || {}, sound: found.sound === true };
      }
    } catch (problem) {
      kept = false;
    }
  }

  function save() {
    try {
      localStorage.setItem(KEY, JSON.stringify(state));
      kept = true;
    } catch (problem) {
      kept = false;
    }
    byId("unkept").hidden = kept;
  }

  // --- clocks: each a list of [what, line, when in ms] --------------------------------------------------------------
  const clocks = all("[data-set]").map((box) => ({
    id: box.dataset.set,
    name: box.dataset.name,
    open: Number(box.dataset.open) * 1000,
    assembly: Number(box.dataset.assembly) * 1000,
    clamp: Number(box.dataset.clamp) * 1000,
    box,
    lines: all("[data-line]", box),
    part: (name) => box.querySelector("[data-part=" + name + "]"),
  }));

  const events = (clock) => (Array.isArray(state.clocks[clock.id]) ? state.clocks[clock.id] : []);
  const time = (clock, what, line) => {
    const found = events(clock).find((e) => e[0] === what && (line === undefined || e[1] === line));
    return found ? found[2] : null;
  };

  function reading(clock, now) {
    const start = time(clock, "spread");
    const tight = time(clock, "tight");
    const wet = clock.lines
      .map((box) => box.dataset.line)
      .filter((line) => time(clock, "spread", line) !== null && time(clock, "laid", line) === null)
      .map((line) => ({ line, left: clock.open - (now - time(clock, "spread", line)) }))
      .sort((a, b) => a.left - b.left);
    return {
      start, tight, wet,
      running: start !== null && tight === null,
      assembly: start === null ? clock.assembly : clock.assembly - ((tight === null ? now : tight) - start),
      open: tight === null && wet.length ? wet[0].left : null,
      clamp: tight === null ? null : clock.clamp - (now - tight),
      back: events(clock).some((e) => e[2] > now + 2000),
    };
  }

  function face(left) {
    const over = left < 0;
    const seconds = over ? Math.floor(-left / 1000) : Math.ceil(left / 1000);
    const two = (n) => String(n).padStart(2, "0");
    const minutes = Math.floor(seconds / 60);
    const text = minutes >= 60
      ? Math.floor(minutes / 60) + ":" + two(minutes % 60) + ":" + two(seconds % 60)
      : minutes + ":" + two(seconds % 60);
    return (over ? "+" : "") + text;
  }

  const hour = (when) => new Date(when).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });

  function set(element, text) {
    if (element.textContent !== text) element.textContent = text;
  }

  function show(element, text) {
    set(element, text);
    element.classList.toggle("long", text.length > 5);
  }

  function draw() {
    const now = Date.now();
    let urgent = null;
    for (const clock of clocks) {
      const r = reading(clock, now);
      show(clock.part("assembly"), face(r.assembly));
      show(clock.part("open"), r.open === null ? "–" : face(r.open));
      const name = r.wet.length ? clock.lines.find((b) => b.dataset.line === r.wet[0].line).dataset.name : "";
      set(clock.part("open-says"),
        r.open === null ? "no line is wet" : fill(r.open < 0 ? "OVER: {line} must touch" : "{line} must touch", { line: name }));
      set(clock.part("assembly-says"),
        r.start === null ? "starts with the first glue"
          : r.tight !== null ? (r.assembly < 0 ? "tight, TOO LATE" : "tight in time")
            : r.assembly < 0 ? "OVER: press at once" : "to the last clamp");
      clock.part("assembly").parentElement.classList.toggle("late", r.start !== null && r.assembly < 0);
      clock.part("open").parentElement.classList.toggle("late", r.open !== null && r.open < 0);
      const after = clock.part("after");
      after.hidden = r.tight === null;
      if (r.tight !== null) {
        set(after, fill(r.clamp > 0 ? "Clamps stay on until {at}, {left} left." : "Clamps may come off since {at}.",
          { at: hour(r.tight + clock.clamp), left: face(r.clamp) }));
      }
      clock.part("back").hidden = !r.back;
      clock.part("tight").disabled = r.start === null || r.tight !== null;
      clock.part("undo").disabled = events(clock).length === 0;
      clock.part("again").disabled = events(clock).length === 0;
      for (const line of clock.lines) {
        const spread = time(clock, "spread", line.dataset.line), laid = time(clock, "laid", line.dataset.line);
        line.querySelector("[data-do=spread]").disabled = spread !== null || r.tight !== null;
        line.querySelector("[data-do=laid]").disabled = spread === null || laid !== null || r.tight !== null;
      }
      alarms(clock, r);
      const least = r.running ? Math.min(r.assembly, r.open === null ? Infinity : r.open) : Infinity;
      if (least < Infinity && (urgent === null || least < urgent.least)) urgent = { clock, r, least };
    }
    const bar = byId("bar");
    bar.hidden = urgent === null;
    if (urgent !== null) {
      set(byId("bar-name"), fill("Set-up {number}", { number: urgent.clock.id }));
      bar.setAttribute("href", "#set-up-" + urgent.clock.id + "-clock");
      set(byId("bar-left"), face(urgent.least));
      set(byId("bar-what"), urgent.r.open !== null && urgent.r.open <= urgent.r.assembly ? "open time" : "assembly time");
      bar.classList.toggle("late", urgent.least < 0);
    }
    return urgent !== null;
  }

  // --- alarm: after a tap only, and never waited for ----------------------------------------------------------------
  const STEPS = [120000, 60000, 0];
  const rung = new Set();
  let first = true;
  let audio = null;

  function alarms(clock, r) {
    const ring = (kind, start, left, steps) => {
      for (const step of steps) {
        const mark = [clock.id, kind, start, step].join(" ");
        if (left <= step && !rung.has(mark)) {
          rung.add(mark);
          if (!first) sound(step === 0 ? 4 : 2);
        }
      }
    };
    if (r.running) ring("assembly", r.start, r.assembly, STEPS);
    if (r.running && r.open !== null) ring("open", time(clock, "spread", r.wet[0].line), r.open, STEPS.slice(1));
    if (r.clamp !== null) ring("clamp", r.tight, r.clamp, [0]);
  }

  const Kind = () => window.AudioContext || window.webkitAudioContext;
  const asleep = () => Boolean(state.sound && Kind() && (!audio || audio.state !== "running"));

  function unlock() {
    if (!state.sound) return;
    try {
      if (!audio && Kind()) {
        audio = new (Kind())();
        audio.onstatechange = drawSound;
      }
      if (audio && audio.state !== "running") audio.resume().catch(() => {});
    } catch (problem) {
      audio = null;
    }
  }

  function sound(times) {
    if (!state.sound) return;
    try {
      if (navigator.vibrate) navigator.vibrate(Array(times).fill([300, 150]).flat());
    } catch (problem) { /* a device that cannot */ }
    try {
      if (!audio || audio.state !== "running") return;
      for (let i = 0; i < times; i += 1) {
        const tone = audio.createOscillator(), gain = audio.createGain(), at = audio.currentTime + 0.45 * i;
        tone.frequency.value = 880;
        gain.gain.setValueAtTime(0.4, at);
        gain.gain.setValueAtTime(0, at + 0.3);
        tone.connect(gain).connect(audio.destination);
        tone.start(at);
        tone.stop(at + 0.32);
      }
    } catch (problem) { /* silent */ }
  }

  function drawSound() {
    set(byId("sound"), !state.sound ? "Sound and vibration: off" : asleep() ? "Sound and vibration: tap to wake"
      : "Sound and vibration: on");
    byId("sound").setAttribute("aria-pressed", String(state.sound));
  }

  // --- the screen stays on while a clock runs; every hiding of the page ends that, so it is asked for again ----------
  let lock = null;
  let asking = false;

  function stayOn(running) {
    try {
      if (!running) {
        if (lock) lock.release().catch(() => {});
        lock = null;
      } else if (!lock && !asking && document.visibilityState === "visible" && navigator.wakeLock) {
        asking = true;
        navigator.wakeLock.request("screen").then((got) => {
          asking = false;
          lock = got;
          got.addEventListener("release", () => { if (lock === got) lock = null; });
        }, () => { asking = false; });
      }
    } catch (problem) {
      asking = false;
    }
    set(byId("screen"), !running ? "" : lock ? "The screen is kept on."
      : "This browser does not keep the screen on: set the display so that it stays on.");
  }

  function beat() {
    stayOn(draw());
  }

  // --- what is tapped -----------------------------------------------------------------------------------------------
  function note(clock, what, line) {
    state.clocks[clock.id] = [...events(clock), [what, line, Date.now()]];
    save();
    beat();
  }

  for (const clock of clocks) {
    for (const line of clock.lines) {
      for (const what of ["spread", "laid"]) {
        line.querySelector("[data-do=" + what + "]").addEventListener("click", () => note(clock, what, line.dataset.line));
      }
    }
    clock.part("tight").addEventListener("click", () => note(clock, "tight", ""));
    clock.part("undo").addEventListener("click", () => {
      state.clocks[clock.id] = events(clock).slice(0, -1);
      save();
      beat();
    });
    clock.part("again").addEventListener("click", () => {
      if (!window.confirm(fill("Set the clock of set-up {number} back to its start?", { number: clock.id }))) return;
      delete state.clocks[clock.id];
      save();
      beat();
    });
  }
  const ticks = all("input[data-tick]");
  const drawTicks = () => ticks.forEach((tick) => { tick.checked = state.ticks[tick.dataset.tick] === true; });
  for (const tick of ticks) {
    tick.addEventListener("change", () => {
      if (tick.checked) state.ticks[tick.dataset.tick] = true;
      else delete state.ticks[tick.dataset.tick];
      save();
    });
  }
  byId("sound").addEventListener("click", () => {
    if (!asleep()) {
      state.sound = !state.sound;
      save();
    }
    unlock();
    sound(1);
    drawSound();
  });
  byId("forget").addEventListener("click", () => {
    if (!window.confirm("Forget all ticks and clocks of this plan?")) return;
    state = { ticks: {}, clocks: {}, sound: state.sound };
    save();
    drawTicks();
    beat();
  });
  document.addEventListener("click", unlock);
  for (const sheet of all(".sheet")) sheet.addEventListener("click", () => sheet.classList.toggle("near"));

  // --- begin --------------------------------------------------------------------------------------------------------
  load();
  byId("unkept").hidden = kept;
  drawTicks();
  drawSound();
  beat();
  first = false;
  for (const [where, what] of [[document, "visibilitychange"], [document, "resume"], [window, "pageshow"], [window, "focus"]]) {
    where.addEventListener(what, beat);
  }
  window.addEventListener("storage", (event) => {
    if (event.key !== KEY && event.key !== null) return;
    load();
    drawTicks();
    drawSound();
    beat();
  });
  setInterval(beat, 250);
})();
