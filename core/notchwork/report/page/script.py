"""What happens when something in a picture is pointed at. Everything else on the page works without it."""

from __future__ import annotations

import base64
import hashlib

SCRIPT = """\
"use strict";
(function () {
  var root = document.documentElement, from = [], last = null, pressed = null;
  root.classList.add("live");
  function all(s) { return Array.prototype.slice.call(document.querySelectorAll(s)); }
  function hot(e) { return e.target.closest ? e.target.closest("svg.picture g[aria-label]") : null; }
  all("svg.picture g[aria-label]").forEach(function (el) {
    el.setAttribute("role", "button");
    el.setAttribute("tabindex", "0");
  });
  function list(el, name) { return (el.getAttribute(name) || "").split(" ").filter(Boolean); }
  function shown(el) { return el.getClientRects().length > 0; }
  function alike(el) {
    var by = list(el, "data-edges").length ? "data-edges" : "data-seam", wanted = list(el, by);
    return all("[" + by + "]").filter(function (other) {
      return list(other, by).some(function (token) { return wanted.indexOf(token) >= 0; });
    });
  }
  function say(el) {
    if (el === last) return;
    if (last) all(".now").forEach(function (o) { o.classList.remove("now"); });
    last = el;
    if (!el) return;
    var card = el.closest(".card"), line = card && card.querySelector(".says");
    if (line) line.textContent = el.getAttribute("aria-label");
    el.classList.add("now");
    alike(el).forEach(function (o) { o.classList.add("now"); });
  }
  function go(el, to) {
    if (!to) return;
    from.push(el);
    to.scrollIntoView({ block: "center" });
    to.focus({ preventScroll: true });
  }
  function goal(el) {
    var told = list(el, "data-findings");
    if (told.length) return document.getElementById("finding-" + told[0]);
    if (el.closest("#glance")) {
      return list(el, "data-seam").map(function (seam) { return document.getElementById("card-" + seam); })[0];
    }
    return alike(el).filter(function (other) { return other.closest("#glance") && shown(other); })[0];
  }
  document.addEventListener("pointerover", function (e) { var el = hot(e); if (el) say(el); });
  document.addEventListener("focusin", function (e) { var el = hot(e); if (el) say(el); });
  document.addEventListener("click", function (e) {
    var el = hot(e);
    if (!el) return;
    say(el);
    if (el === pressed) go(el, goal(el));
    pressed = el;
  });
  document.addEventListener("keydown", function (e) {
    var el = hot(e);
    if (el && (e.key === "Enter" || e.key === " ")) { e.preventDefault(); go(el, goal(el)); }
    if (e.key === "Escape" && from.length) {
      var back = from.pop();
      back.scrollIntoView({ block: "center" });
      back.focus({ preventScroll: true });
    }
  });
  window.addEventListener("beforeprint", function () { say(null); });
})();
"""
"""Pointing at a part, or reaching it with the keyboard, fills the line under its picture and outlines the same edges elsewhere.
Only with a script are they buttons that the keyboard reaches: without one they would be hundreds that do nothing.
Enter, or a second tap, leads on: from a seam to the piece, from a letter to its seam, from a sign to what is told; Escape leads back."""

DIGEST = "sha256-" + base64.b64encode(hashlib.sha256(SCRIPT.encode()).digest()).decode()
"""What the page's policy knows the script by."""
