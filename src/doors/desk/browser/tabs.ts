/** Tabs by the keyboard as WAI-ARIA says: arrows change them, Tab goes into what they show. Gives the way to pick one. */
export function startTabs(list: Element, picked: (id: string) => void): (id: string) => void {
  const tabs = [...list.querySelectorAll<HTMLElement>('[role="tab"]')]
  const pick = (tab: HTMLElement, focus: boolean): void => {
    for (const one of tabs) {
      const isPicked = one === tab
      one.setAttribute('aria-selected', String(isPicked))
      one.tabIndex = isPicked ? 0 : -1
      const panel = document.getElementById(one.getAttribute('aria-controls') ?? '')
      if (panel) panel.hidden = !isPicked
    }
    if (focus) tab.focus()
    picked(tab.id)
  }
  for (const [index, tab] of tabs.entries()) {
    tab.addEventListener('click', () => pick(tab, false))
    tab.addEventListener('keydown', ({ key }) => {
      const step = key === 'ArrowRight' ? 1 : key === 'ArrowLeft' ? -1 : 0
      const next = tabs[(index + step + tabs.length) % tabs.length]
      if (step !== 0 && next !== undefined) pick(next, true)
    })
  }
  return (id) => {
    const tab = tabs.find((one) => one.id === id)
    if (tab !== undefined) pick(tab, false)
  }
}
