// Makes an element of the page like its new markup, changing only what differs. A field that has the focus keeps its
// text and its caret, and what stands folded open stays open.
globalThis.stillwoodPatch = (element, markup) => {
  morphdom(element, markup, {
    onBeforeElUpdated(now, next) {
      if (now.isEqualNode(next)) return false;
      if (now === document.activeElement && "value" in next && next.tagName !== "BUTTON") next.value = now.value;
      if (now.tagName === "DETAILS" && !next.hasAttribute("data-open")) next.open = now.open;
      return true;
    },
  });
};
