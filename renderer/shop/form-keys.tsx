/** What keeps a form, and what leaves it. */
export function FormKeys({ does, onLeave }: { does: string; onLeave: () => void }) {
  return (
    <div className="form-keys">
      <button type="submit" className="plain strong">
        {does}
      </button>
      <button type="button" className="plain" onClick={onLeave}>
        Leave it
      </button>
    </div>
  );
}
