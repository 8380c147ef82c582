// Makes all text larger, as a phone's setting for text does: the sizes of letters, nothing else.
const factor = arguments[0];
for (const sheet of document.styleSheets) {
  const larger = (rules) => {
    for (const rule of rules) {
      if (rule.cssRules?.length) larger(rule.cssRules);
      const size = rule.style?.fontSize;
      if (size?.endsWith("px")) rule.style.fontSize = `${parseFloat(size) * factor}px`;
    }
  };
  larger(sheet.cssRules);
}
return true;
