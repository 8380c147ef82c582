// Sets values in an element whose shape stays as it is. Each is named by the place of its node among the elements and
// texts in the order of the document, the node's name and the attribute's name, which a text has none of. Before them
// stands how many nodes there are. Where the page has others, nothing is set, and the answer is false.
globalThis.stillwoodSet = (element, text) => {
  if (!text) return true;
  const [count, ...values] = text.split("\0");
  const walk = document.createTreeWalker(element, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
  const nodes = [element];
  while (walk.nextNode()) nodes.push(walk.currentNode);
  if (nodes.length !== Number(count)) return false;
  const set = [];
  for (let at = 0; at < values.length; at += 4) {
    const [place, name, attribute, value] = values.slice(at, at + 4);
    const node = nodes[place];
    if (node?.nodeName.toLowerCase() !== name.toLowerCase()) return false;
    set.push([node, attribute, value]);
  }
  for (const [node, attribute, value] of set) {
    if (attribute) node.setAttribute(attribute, value);
    else node.data = value;
  }
  return true;
};

// Moves a long list on: of its rows those before and after a run that stays give way to others. Where the page has other
// rows, or one that goes has the focus, nothing is done, and the answer is false.
globalThis.stillwoodRows = (list, count, goneBefore, stay, before, after) => {
  const rows = [...(list.tBodies?.[0] ?? list).children];
  const staying = rows.slice(goneBefore, goneBefore + stay);
  const going = rows.filter((row) => !staying.includes(row));
  if (rows.length !== count || going.some((row) => row.contains(document.activeElement))) return false;
  staying[0].insertAdjacentHTML("beforebegin", before);
  staying.at(-1).insertAdjacentHTML("afterend", after);
  for (const row of going) row.remove();
  return true;
};

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

// While something lies over the screen, nothing beside it is reached by a key or read out. Once it is gone, the focus is
// back at what had it, or at the title where that is gone too.
let hadFocus = null;
globalThis.stillwoodOver = () => {
  const app = document.getElementById("app");
  const over = app.querySelector("[aria-modal]");
  if (over) hadFocus ??= document.activeElement;
  for (const element of app.querySelectorAll("[inert]")) element.inert = false;
  for (let at = over; at && at !== app; at = at.parentElement) {
    for (const beside of at.parentElement.children) beside.inert = beside !== at;
  }
  if (over || !hadFocus) return;
  const back = hadFocus.isConnected && hadFocus !== document.body ? hadFocus : document.getElementById("title");
  hadFocus = null;
  back?.focus({ preventScroll: true });
};
